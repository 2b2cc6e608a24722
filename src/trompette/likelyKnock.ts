import { normalCumulative } from "../statistics/normalCumulative.js";
import { LEVELS_DB, levelIndex, type PeriodPeaks } from "./periodPeaks.js";

/** What is known of one stroke, in frames. */
export interface KnockCase {
  /** In units of the usual knock, 0 in silence. */
  readonly course: Float64Array;
  /** Level of the highest of the period that begins at each frame. */
  readonly peaks: Uint8Array;
  readonly period: number;
  readonly chances: PeriodPeaks;
  /** How well the usual knock is known, decibels (a standard deviation). */
  readonly spreadDb: number;
  /** Frames that count, and those of them at which the first knock may lie. */
  readonly from: number;
  readonly to: number;
  readonly earliest: number;
  readonly latest: number;
  /** Frames before the first loud knock in which weaker ones may come. */
  readonly attack: number;
  /** Logarithm of the chance beforehand of each frame. */
  readonly logPrior: (frame: number) => number;
}

/** What is likely, in frames: 2.5, 50 and 97.5 %. */
export type LikelyKnock = readonly [earliest: number, middle: number, latest: number];

/** A knock counts from half the amplitude of the usual one; the frames' own overlap adds half a decibel to a lone knock's power. */
export const LOUD_ENOUGH_DB = 10 * Math.log10(0.28);
/** What one knock may differ from what the course makes of it, decibels (a standard deviation), from takes with known knocks. */
const KNOCK_DB = 1.5;
/** Share of periods with a weaker knock in an attack. */
const WEAK_SHARE = 0.5;
/** Neighbouring periods are not quite independent. */
const INDEPENDENT_SHARE = 0.65;
/** Of a knock the height comes so many frames after its begin. */
const KNOCK_FRAMES = 5;
const LEAST_CHANCE = 1e-4;
const TAIL = 0.025;

/**
 * Where the first knock lies that is loud enough. Each moment is weighed by: how likely the periods before it are as silence (shortly
 * before it also as knocks too weak to count), the periods after it as buzz, and the knock at it as a loud one. Periods, not frames, are
 * what is independent: a knock that is left out leaves one period empty.
 */
export function likelyKnock(known: KnockCase): LikelyKnock {
  const { course, peaks, period, chances, from, to, earliest, latest } = known;
  const spreadDb = Math.hypot(KNOCK_DB, known.spreadDb);
  const loud = (levelDb: number) => normalCumulative((levelDb - LOUD_ENOUGH_DB) / spreadDb);
  const weak = LEVELS_DB.map((levelDb, j) => (j === 0 ? 0 : 1 - loud(levelDb)));
  const weakTotal = weak.reduce((sum, value) => sum + value, 0);
  const silence = chances.silence.map(Math.log);
  const attack = chances.silence.map((chance, j) =>
    Math.log((1 - WEAK_SHARE) * chance + (WEAK_SHARE * weak[j]) / weakTotal),
  );
  const buzz = chances.buzz.map(Math.log);
  const attackPeriods = Math.max(1, Math.round(known.attack / period));
  const logs = Array.from({ length: Math.max(1, latest - earliest) }, (_, i) => {
    const at = earliest + i;
    const height = highest(at, Math.min(course.length, at + KNOCK_FRAMES));
    const knock = Math.log(loud(10 * Math.log10(Math.max(1e-6, height))) + LEAST_CHANCE);
    return INDEPENDENT_SHARE * (before(at) + after(at)) + knock + known.logPrior(at);
  });
  const top = Math.max(...logs);
  const shares = logs.map((value) => Math.exp(value - top));
  const total = shares.reduce((sum, share) => sum + share, 0);
  return [quantile(TAIL), quantile(0.5), quantile(1 - TAIL)];

  function before(at: number): number {
    let sum = 0;
    let nth = 0;
    for (let last = at; last > from; last -= period) {
      const first = Math.max(from, last - period);
      const level = last - first === period ? peaks[first] : levelIndex(highest(first, last));
      sum += ((last - first) / period) * (nth < attackPeriods ? attack : silence)[level];
      nth++;
    }
    return sum;
  }

  function after(at: number): number {
    let sum = 0;
    for (let first = at; first < to; first += period) {
      const last = Math.min(to, first + period);
      const level = last - first === period ? peaks[first] : levelIndex(highest(first, last));
      sum += ((last - first) / period) * buzz[level];
    }
    return sum;
  }

  function highest(first: number, last: number): number {
    let value = Number.NEGATIVE_INFINITY;
    for (let k = first; k < last; k++) value = Math.max(value, course[k]);
    return value;
  }

  function quantile(share: number): number {
    let sum = 0;
    for (const [i, value] of shares.entries()) {
      sum += value;
      if (sum >= share * total) return earliest + i;
    }
    return Math.max(earliest, latest - 1);
  }
}
