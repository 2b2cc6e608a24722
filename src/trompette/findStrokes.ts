import type { BuzzProfile } from "./buzzProfile.js";
import { type CutStroke, cutStrokes } from "./cutStrokes.js";
import { fitOnset } from "./fitOnset.js";
import { movingMean } from "./movingMean.js";
import { stepAt } from "./stepAt.js";
import { type TimingCourse, timingCourse } from "./timingCourse.js";
import { unevenness } from "./unevenness.js";
import type { UpperBands } from "./upperBands.js";

/** A stretch in which the upper bands suddenly stand above what they have without buzz: the wheel's stroke, not its first knock. */
export interface FoundStroke {
  readonly onsetSeconds: number;
  /** 95 of 100 onsets like it lie this near. */
  readonly withinSeconds: number;
  readonly endSeconds: number;
  /** Mean power above that without buzz from onset to end, band by band. */
  readonly addedPower: readonly number[];
  /** Share of what it adds from its onset on that comes at once, within the length of one frame about its height. */
  readonly atOnceShare: number;
}

/** Strokes are found in means over this long or so many periods of the string, which knocks at irregular moments need ... */
const SMOOTH_SECONDS = 0.02;
const SMOOTH_PERIODS = 5;
/** ... or over less, where that makes them come more evenly: neighbours close to each other are parted by it, rough ones cut up. */
const SHORTER_SECONDS = [0.014, 0.008] as const;
const FINE_SECONDS = 0.006;
/** What an onset may be off by, from the fit and from how far the knocks come apart: by takes with known onsets, 95 of 100. */
const REACH_TIMES = 0.6;
const ROUGH_TIMES = 5.5;
const LEAST_WITHIN_SECONDS = 0.001;

/**
 * Finds the strokes: rises of the weighted upper bands above their level without buzz that are sudden, high enough and parted by a dip.
 *
 * They are found twice. First roughly (onset: `stepAt`), which shows in which bands and how roughly this bridge buzzes (`timingCourse`);
 * then with onsets by likelihood (`fitOnset`), in the smoothing that makes them come most evenly.
 *
 * @param stringHz - pitch of the string: how close knocks of the bridge follow each other
 * @returns in order of time; what sounds like a knock or a note is among them
 */
export function findStrokes(upper: UpperBands, profile: BuzzProfile, stringHz: number): FoundStroke[] {
  const { course, levelDb, baselineDb, riseDb } = upper;
  const { hopSeconds, firstSeconds, count, isHeard } = course;
  const smoothed = (values: Float64Array, seconds: number) =>
    movingMean(values, Math.max(1, Math.round(seconds / hopSeconds)));
  const { added, timed, rise } = weighted();
  const smoothSeconds = Math.max(SMOOTH_SECONDS, SMOOTH_PERIODS / stringHz);
  const smooth = smoothed(added, smoothSeconds);
  const roughFine = smoothed(timed, FINE_SECONDS);
  const rough = cutStrokes(upper, { smooth, fine: roughFine, rise }, (from, to) => ({
    at: stepAt(roughFine, from, to),
    reach: 0,
  }));
  if (rough.length === 0) return [];
  const timing = timingCourse(upper, rough);
  const fine = smoothed(timing.power, FINE_SECONDS);
  let best = cut(smooth);
  for (const seconds of SHORTER_SECONDS) {
    const other = cut(smoothed(added, seconds));
    if (other.length > 0 && unevennessOf(other) <= unevennessOf(best)) best = other;
  }
  return best.map((one, i) => completed(one, best[i + 1], timing));

  function cut(of: Float64Array): CutStroke[] {
    return cutStrokes(upper, { smooth: of, fine, rise }, (from, to) => fitOnset(timing, from, to));
  }

  /** The bands together: power above that without buzz, weighted to be found and to be timed, and how it rises. */
  function weighted() {
    const sums = {
      added: new Float64Array(count),
      timed: new Float64Array(count),
      rise: new Float64Array(count),
    };
    for (const [b, level] of levelDb.entries()) {
      for (let m = 0; m < count; m++) {
        if (isHeard[m] === 0) continue;
        const ratio = 10 ** ((level[m] - baselineDb[b][m]) / 10) - 1;
        sums.added[m] += profile.weights[b] * ratio;
        sums.timed[m] += profile.timing[b] * ratio;
        sums.rise[m] += profile.weights[b] * riseDb[b][m];
      }
    }
    return sums;
  }

  function completed(
    { onsetSeconds, reachSeconds, endSeconds: last, atOnceShare }: CutStroke,
    next: CutStroke | undefined,
    { roughSeconds }: TimingCourse,
  ): FoundStroke {
    const endSeconds = Math.min(last, next?.onsetSeconds ?? last);
    const reach = REACH_TIMES * reachSeconds;
    const apart = ROUGH_TIMES * roughSeconds;
    return {
      onsetSeconds,
      withinSeconds: Math.hypot(reach, apart, LEAST_WITHIN_SECONDS),
      endSeconds,
      addedPower: addedPower(onsetSeconds, endSeconds),
      atOnceShare,
    };
  }

  function addedPower(onsetSeconds: number, endSeconds: number): number[] {
    const first = Math.max(0, Math.round((onsetSeconds - firstSeconds) / hopSeconds));
    const last = Math.min(count, Math.max(first + 1, Math.round((endSeconds - firstSeconds) / hopSeconds)));
    return levelDb.map((level, b) => {
      let sum = 0;
      for (let m = first; m < last; m++) sum += 10 ** (level[m] / 10) - 10 ** (baselineDb[b][m] / 10);
      return sum / (last - first);
    });
  }
}

function unevennessOf(strokes: readonly CutStroke[]): number {
  return unevenness(strokes.map(({ onsetSeconds }) => onsetSeconds));
}
