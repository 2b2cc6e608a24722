import type { FineStroke } from "./FineStroke.js";
import { FINE_HOP_SECONDS } from "./fineCourse.js";
import { fineSpans } from "./fineSpans.js";
import { KNOWN_SECONDS, knockAfter } from "./knockAfter.js";
import { knockHeights } from "./knockHeights.js";
import { LOUD_ENOUGH_DB } from "./likelyKnock.js";
import { LEVELS_DB, levelIndex, type PeriodPeaks, periodPeaks } from "./periodPeaks.js";
import { unitedBands } from "./unitedBands.js";

/** Where the buzz of a stroke is first heard. */
export interface HeardOnset {
  readonly onsetSeconds: number;
  /** 95 of 100 onsets like it lie this near. More than 10 ms where a rival farther away can't be ruled out. */
  readonly withinSeconds: number;
  /** True where it is not sure which of several knocks is the first that is loud enough; else it is noise. */
  readonly isRough: boolean;
}

const ROUNDS = 3;
/** A period of the string, or what a frame smears a knock to. */
const LEAST_PERIOD_SECONDS = 0.003;
/** A knock's height lies a little after its begin, and a place is the begin of a step. */
const LATER_SECONDS = 0.0005;
/** What is said to be known is known to this. */
const BAR_SECONDS = 0.01;
/** What knocks known clearly are off by less than is likely, and at least: by takes with known onsets, 95 of 100. */
const CLEAR_SHARE = 1;
const CLEAR_FIT_SECONDS = 0.0005;
/** Rivals are knocks, and begin up to so much before the highest of their frames. */
const RIVAL_FIT_SECONDS = 0.002;
/** With more of the silent periods as high as a knock that counts, the course shows something else, too (beats with drones, say). */
const MOST_HIGH_SHARE = 0.12;

/**
 * The onset of each buzz in courses of 3 ms frames about the strokes: what the take's own silence and first knocks look like is learnt
 * from all strokes together, in three rounds.
 *
 * @param strokes - at least one; knocks and earliest moments as far as they are known yet
 */
export function firstKnocks(strokes: readonly FineStroke[], stringHz: number): HeardOnset[] {
  const period = Math.max(1, Math.round(Math.max(1 / stringHz, LEAST_PERIOD_SECONDS) / FINE_HOP_SECONDS));
  let known = strokes;
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
    onsets = likely.map(({ earliest, latest, at, cautiousReach }, i) => {
      const reach = Math.max(at - earliest, latest - at);
      const clear = Math.hypot(CLEAR_SHARE * reach, CLEAR_FIT_SECONDS);
      const isKnown = cautiousReach <= KNOWN_SECONDS;
      return {
        onsetSeconds: known[i].strokeSeconds + at + LATER_SECONDS,
        withinSeconds: isKnown
          ? Math.min(clear, BAR_SECONDS)
          : Math.max(clear, cautiousReach + RIVAL_FIT_SECONDS),
        isRough: areSeparate && !isFaint,
      };
    });
    known = known.map((stroke, i) => ({
      ...stroke,
      earliestSeconds: likely[i].earliest,
      knockSeconds: likely[i].middle,
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
