import type { AudioRecording } from "../audio/AudioRecording.js";
import type { Band } from "./BandCourse.js";
import type { FineStroke } from "./FineStroke.js";
import type { FoundStroke } from "./findStrokes.js";
import { FINE_HOP_SECONDS, fineCourse } from "./fineCourse.js";
import { fineSpans } from "./fineSpans.js";
import { knockAfter } from "./knockAfter.js";
import { knockHeights } from "./knockHeights.js";
import { LOUD_ENOUGH_DB } from "./likelyKnock.js";
import { LEVELS_DB, levelIndex, type PeriodPeaks, periodPeaks } from "./periodPeaks.js";
import { unitedBands } from "./unitedBands.js";

/** Where the buzz of a stroke is first heard. */
export interface HeardOnset {
  readonly onsetSeconds: number;
  /** 95 of 100 onsets like it lie this near. */
  readonly withinSeconds: number;
  /** True where it is not sure which of several knocks is the first that is loud enough; else it is noise. */
  readonly isRough: boolean;
}

const BEFORE_SECONDS = 0.06;
const AFTER_SECONDS = 0.085;
const ROUNDS = 3;
/** A period of the string, or what a frame smears a knock to. */
const LEAST_PERIOD_SECONDS = 0.003;
/** A knock's height lies a little after its begin, and a place is the begin of a step. */
const LATER_SECONDS = 0.0005;
/** Where single knocks may be meant, the middle between them is never far from any of them. */
const WIDE_SECONDS = 0.006;
const WIDE_FIT_SECONDS = 0.0015;
/** What single knocks known clearly are off by less than is likely, and at least: by takes with known onsets, 95 of 100. */
const CLEAR_SHARE = 0.9;
const CLEAR_FIT_SECONDS = 0.0005;
/** With more of the silent periods as high as a knock that counts, the course shows something else, too: beats with drones, say. */
const MOST_HIGH_SHARE = 0.12;
const UNSURE_SECONDS = 0.012;

/**
 * The onset of each buzz as it is heard: the first knock of at least half the usual amplitude (of a buzz without separate knocks, where
 * its amplitude passes half), in courses of 3 ms frames about the strokes found. What the take's own silence and first knocks look like is
 * learnt from all strokes together, in three rounds.
 *
 * @param strokes - of the wheel, in order of time, at least one
 */
export function heardOnsets(
  recording: AudioRecording,
  bands: readonly Band[],
  strokes: readonly FoundStroke[],
  stringHz: number,
): HeardOnset[] {
  const period = Math.max(1, Math.round(Math.max(1 / stringHz, LEAST_PERIOD_SECONDS) / FINE_HOP_SECONDS));
  let known = strokes.map(
    ({ onsetSeconds, withinSeconds, endSeconds }, i): FineStroke => ({
      strokeSeconds: onsetSeconds,
      withinSeconds,
      endSeconds: endSeconds - onsetSeconds,
      endBeforeSeconds: (strokes[i - 1]?.endSeconds ?? Number.NEGATIVE_INFINITY) - onsetSeconds,
      course: fineCourse(recording, bands, onsetSeconds - BEFORE_SECONDS, onsetSeconds + AFTER_SECONDS),
      knockSeconds: 0,
      earliestSeconds: -withinSeconds,
    }),
  );
  let onsets: HeardOnset[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const spans = known.map((stroke) => fineSpans(stroke, stringHz));
    const united = unitedBands(known, spans);
    const { heights, areSeparate } = knockHeights(
      united,
      spans.map(({ inner }) => inner),
      stringHz,
    );
    const courses = united.map((course, i) => course.map((value) => value / heights[i].height));
    const peaks = courses.map((course) => peakLevels(course, period));
    const chances = periodPeaks(
      peaks,
      spans.map(({ quiet }) => quiet),
      spans.map(({ early }) => early),
      period,
    );
    const isFaint = highShare(chances) > MOST_HIGH_SHARE;
    const likely = known.map((stroke, i) =>
      knockAfter(
        stroke,
        { course: courses[i], peaks: peaks[i], period, chances, spreadDb: heights[i].spreadDb },
        stringHz,
      ),
    );
    onsets = likely.map(([earliest, middle, latest], i) => {
      const isWide = Math.max(middle - earliest, latest - middle) > WIDE_SECONDS;
      const at = isWide ? (earliest + latest) / 2 : middle;
      const reach = Math.max(at - earliest, latest - at);
      return {
        onsetSeconds: known[i].strokeSeconds + at + LATER_SECONDS,
        withinSeconds: Math.hypot(
          isWide ? reach : CLEAR_SHARE * reach,
          isWide ? WIDE_FIT_SECONDS : CLEAR_FIT_SECONDS,
          isFaint ? UNSURE_SECONDS : 0,
        ),
        isRough: areSeparate && !isFaint,
      };
    });
    known = known.map((stroke, i) => ({
      ...stroke,
      earliestSeconds: likely[i][0],
      knockSeconds: likely[i][1],
    }));
  }
  return onsets;
}

/** Level of the highest of the period that begins at each frame. */
function peakLevels(course: Float64Array, period: number): Uint8Array {
  return Uint8Array.from(course, (_, k) => {
    let highest = Number.NEGATIVE_INFINITY;
    for (let j = k; j < Math.min(course.length, k + period); j++) highest = Math.max(highest, course[j]);
    return levelIndex(highest);
  });
}

/** Share of the silent periods that come as high as a knock that counts. */
function highShare({ silence }: PeriodPeaks): number {
  return silence.reduce((sum, share, j) => sum + (LEVELS_DB[j] > LOUD_ENOUGH_DB ? share : 0), 0);
}
