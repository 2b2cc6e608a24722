import { holmAdjusted } from "../statistics/holmAdjusted.js";
import { tQuantile } from "../statistics/tQuantile.js";
import { tTwoSidedP } from "../statistics/tTwoSidedP.js";
import { welchDegreesOfFreedom } from "../statistics/welchDegreesOfFreedom.js";
import { NOISE_FREEDOM } from "./noiseBeside.js";
import type { ModeReading, TapReading } from "./TapReading.js";

/** A difference of two readings, the first minus the second. What can't be had is null. */
export interface TapDifference {
  readonly difference: number;
  readonly interval95: readonly [number, number] | null;
  /** Holm-adjusted over all differences of the comparison; null where there is no interval. */
  readonly pAdjusted: number | null;
  readonly isShown: boolean;
}

/** One mode of each body that seem to be the same. */
export interface ModePair {
  /** Places in the modes of either reading. */
  readonly a: number;
  readonly b: number;
  readonly cents: TapDifference;
  /** Of Q, in percent of that of the second body. */
  readonly qPercent: TapDifference;
  /** Each side's strengths counted from the mean of all its matched modes. */
  readonly strengthDb: TapDifference;
}

/** Two bodies side by side. */
export interface BodyComparison {
  readonly pairs: readonly ModePair[];
  /** Places of the modes that have no counterpart. */
  readonly onlyA: readonly number[];
  readonly onlyB: readonly number[];
}

const SIGNIFICANCE = 0.05;
/** Modes further apart than this (about 2.4 semitones) are not taken for the same one: our policy. */
const FURTHEST = Math.log(1.15);
const CENTS = 1200 / Math.LN2;

/**
 * Sets two bodies side by side: modes are matched in order so that the sum of their distances is least (dynamic programming), and
 * each pair's frequency, Q and strength compared with Welch's degrees of freedom, all together adjusted by Holm.
 *
 * The taps of one take were made without setting up anew, so what is shown is a difference between these two set-ups; that it is the
 * bodies' takes further takes, newly placed, to say.
 */
export function compareBodies(a: TapReading, b: TapReading): BodyComparison {
  const matched = matchModes(a.modes, b.modes);
  const mean = (modes: readonly ModeReading[]) =>
    modes.reduce((sum, { strengthDb }) => sum + strengthDb.value, 0) / Math.max(1, modes.length);
  const meanA = mean(matched.map(([i]) => a.modes[i]!));
  const meanB = mean(matched.map(([, k]) => b.modes[k]!));
  const tapsOf = ({ taps }: TapReading) => taps.filter(({ leftOut }) => leftOut === null).length;
  const [freedomA, freedomB] = [tapsOf(a) - 1, tapsOf(b) - 1];
  const raw = matched.map(([i, k]) => {
    const [one, other] = [a.modes[i]!, b.modes[k]!];
    const ln = (value: number, otherValue: number) => Math.log(value / otherValue);
    return {
      a: i,
      b: k,
      cents: differenceOf(
        CENTS * ln(one.frequencyHz.value, other.frequencyHz.value),
        CENTS * one.errors.lnFrequency,
        CENTS * other.errors.lnFrequency,
        NOISE_FREEDOM,
        NOISE_FREEDOM,
      ),
      lnQ: differenceOf(
        ln(one.q.value, other.q.value),
        one.errors.lnQ,
        other.errors.lnQ,
        NOISE_FREEDOM,
        NOISE_FREEDOM,
      ),
      strengthDb: differenceOf(
        one.strengthDb.value - meanA - (other.strengthDb.value - meanB),
        one.errors.strengthDb,
        other.errors.strengthDb,
        freedomA,
        freedomB,
      ),
    };
  });
  const adjusted = holmAdjusted(raw.flatMap(({ cents, lnQ, strengthDb }) => [cents.p, lnQ.p, strengthDb.p]));
  const told = ({ difference, interval95 }: RawDifference, pAdjusted: number | null): TapDifference => ({
    difference,
    interval95,
    pAdjusted,
    isShown: pAdjusted !== null && pAdjusted < SIGNIFICANCE,
  });
  return {
    pairs: raw.map((one, n) => ({
      a: one.a,
      b: one.b,
      cents: told(one.cents, adjusted[3 * n]!),
      qPercent: told(inPercent(one.lnQ), adjusted[3 * n + 1]!),
      strengthDb: told(one.strengthDb, adjusted[3 * n + 2]!),
    })),
    onlyA: [...a.modes.keys()].filter((i) => !matched.some(([one]) => one === i)),
    onlyB: [...b.modes.keys()].filter((k) => !matched.some(([, one]) => one === k)),
  };
}

interface RawDifference {
  readonly difference: number;
  readonly interval95: readonly [number, number] | null;
  readonly p: number | null;
}

function differenceOf(
  difference: number,
  errorA: number | null,
  errorB: number | null,
  freedomA: number,
  freedomB: number,
): RawDifference {
  if (errorA === null || errorB === null || !(errorA > 0 || errorB > 0)) {
    return { difference, interval95: null, p: null };
  }
  const error = Math.hypot(errorA, errorB);
  const freedom = welchDegreesOfFreedom(errorA ** 2, freedomA, errorB ** 2, freedomB);
  const half = tQuantile(1 - SIGNIFICANCE / 2, freedom) * error;
  return {
    difference,
    interval95: [difference - half, difference + half],
    p: tTwoSidedP(difference / error, freedom),
  };
}

function inPercent({ difference, interval95, p }: RawDifference): RawDifference {
  const percent = (ln: number) => 100 * (Math.exp(ln) - 1);
  return {
    difference: percent(difference),
    interval95: interval95 === null ? null : [percent(interval95[0]), percent(interval95[1])],
    p,
  };
}

/** Pairs of places, rising in both: the matching of least total distance, an unmatched mode costing as much as the furthest half pair. */
function matchModes(a: readonly ModeReading[], b: readonly ModeReading[]): (readonly [number, number])[] {
  const columns = b.length + 1;
  const cost = new Float64Array((a.length + 1) * columns);
  const distance = (i: number, k: number) =>
    Math.abs(Math.log(a[i]!.frequencyHz.value / b[k]!.frequencyHz.value));
  const paired = (i: number, k: number) =>
    i > 0 && k > 0 ? cost[(i - 1) * columns + k - 1]! + distance(i - 1, k - 1) : Number.POSITIVE_INFINITY;
  const alone = (i: number, k: number) =>
    Math.min(
      i > 0 ? cost[(i - 1) * columns + k]! : Number.POSITIVE_INFINITY,
      k > 0 ? cost[i * columns + k - 1]! : Number.POSITIVE_INFINITY,
    ) +
    FURTHEST / 2;
  for (let i = 0; i <= a.length; i++) {
    for (let k = 0; k <= b.length; k++) {
      if (i + k > 0) cost[i * columns + k] = Math.min(paired(i, k), alone(i, k));
    }
  }
  const pairs: (readonly [number, number])[] = [];
  let [i, k] = [a.length, b.length];
  while (i > 0 && k > 0) {
    if (cost[i * columns + k] === paired(i, k)) pairs.unshift([--i, --k]);
    else if (cost[i * columns + k] === cost[(i - 1) * columns + k]! + FURTHEST / 2) i--;
    else k--;
  }
  return pairs;
}
