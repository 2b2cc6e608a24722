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

/** Chance of claiming a difference where there is none. */
const LEVEL = 0.05;

/** Compares one measure by Welch's t on the takes' values. */
export function compareMeasure(given: Omit<PlainComparison, "welch">): PlainComparison {
  return { ...given, welch: welchDifference(given.takesA, given.takesB) };
}

/**
 * The comparison with its verdict.
 *
 * @param testedTogether - how many measures share the 5 %: the smallest detectable difference is that at the strictest level
 */
export function judged(
  { welch, ...plain }: PlainComparison,
  pAdjusted: number | null,
  testedTogether: number,
): MeasureComparison {
  const { a, b } = welch;
  const difference = welch.difference ?? Number.NaN;
  const shown = pAdjusted !== null && pAdjusted < LEVEL;
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
      a.standardDeviation === null || b.standardDeviation === null
        ? null
        : smallestDetectable(
            { sdA: a.standardDeviation, sdB: b.standardDeviation, countA: a.count, countB: b.count },
            { significance: LEVEL / testedTogether },
          ),
    takesForOneDb:
      plain.measure.endsWith("Db") && a.standardDeviation !== null && b.standardDeviation !== null
        ? takesNeeded({ sdA: a.standardDeviation, sdB: b.standardDeviation }, 1, {
            significance: LEVEL / testedTogether,
          })
        : null,
    verdict,
  };
}
