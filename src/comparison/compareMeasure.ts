import { smallestDetectable, takesNeeded } from "../statistics/smallestDetectable.js";
import { type WelchDifference, welchDifference } from "../statistics/welchDifference.js";
import type { MeasureComparison, MeasureName, Verdict } from "./Comparison.js";

/** A measure on two sides before it is known how many others are tested with it. */
export interface PlainComparison {
  readonly measure: MeasureName;
  readonly string: string | null;
  readonly primary: boolean;
  readonly sideA: string;
  readonly sideB: string;
  readonly takesA: readonly number[];
  readonly takesB: readonly number[];
  readonly welch: WelchDifference;
}

/** Chance of claiming a difference of the primary measure where there is none. */
const LEVEL_PRIMARY = 0.05;
/**
 * The same for all other measures together. At 5 % for these too, anything at all was shown in 7 of 100 simulated comparisons of an
 * instrument with itself, and up to 10 are possible; with 2 % it is 7 at most.
 */
const LEVEL_OTHERS = 0.02;

/** Our policy: takes that were newly placed differ by tenths of a decibel; copies of one file, made louder or converted, by less than this. */
const COPIES_DIFFER_BY = 0.001;

/**
 * Compares one measure by Welch's t on the takes' values. Where neither side's takes differ by more than copies do, there is no
 * interval: rounding errors would make one that is all but sure.
 */
export function compareMeasure(given: Omit<PlainComparison, "welch">): PlainComparison {
  const welch = welchDifference(given.takesA, given.takesB);
  const { standardDeviation: sdA } = welch.a;
  const { standardDeviation: sdB } = welch.b;
  if (sdA === null || sdB === null || Math.max(sdA, sdB) >= COPIES_DIFFER_BY) return { ...given, welch };
  return untested({ ...given, welch });
}

/** The same comparison without test and interval, for takes that don't tell how they scatter. */
export function untested({ welch, ...given }: PlainComparison): PlainComparison {
  const none = { standardError: null, degreesOfFreedom: null, t: null, p: null, interval: null };
  return { ...given, welch: { ...welch, ...none, lacking: welch.lacking ?? "no-spread" } };
}

/**
 * The comparison with its verdict.
 *
 * @param testedTogether - how many measures share the level: the smallest detectable difference is that at the strictest level
 */
export function judged(
  { welch, ...plain }: PlainComparison,
  pAdjusted: number | null,
  testedTogether: number,
): MeasureComparison {
  const { a, b, p } = welch;
  const level = plain.primary ? LEVEL_PRIMARY : LEVEL_OTHERS;
  const difference = welch.difference ?? Number.NaN;
  const shown = pAdjusted !== null && pAdjusted < level;
  const verdict: Verdict = !shown ? "not-shown" : difference > 0 ? "a-higher" : "b-higher";
  return {
    ...plain,
    unit: plain.measure.endsWith("Hz") ? "Hz" : "dB",
    a: a.mean ?? Number.NaN,
    b: b.mean ?? Number.NaN,
    sdA: a.standardDeviation,
    sdB: b.standardDeviation,
    difference,
    interval95: welch.interval,
    pAdjusted,
    smallestDetectable:
      p === null || a.standardDeviation === null || b.standardDeviation === null
        ? null
        : smallestDetectable(
            { sdA: a.standardDeviation, sdB: b.standardDeviation, countA: a.count, countB: b.count },
            { significance: level / testedTogether },
          ),
    takesForOneDb:
      p !== null &&
      plain.measure.endsWith("Db") &&
      a.standardDeviation !== null &&
      b.standardDeviation !== null
        ? takesNeeded({ sdA: a.standardDeviation, sdB: b.standardDeviation }, 1, {
            significance: level / testedTogether,
          })
        : null,
    verdict,
  };
}
