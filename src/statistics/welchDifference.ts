import { type SampleSpread, sampleSpread } from "./sampleSpread.js";
import { tQuantile } from "./tQuantile.js";
import { tTwoSidedP } from "./tTwoSidedP.js";
import { welchDegreesOfFreedom } from "./welchDegreesOfFreedom.js";

/** Difference of the means of two independent samples. What can't be had is null, and `lacking` says why. */
export interface WelchDifference {
  readonly a: SampleSpread;
  readonly b: SampleSpread;
  /** Mean of a minus mean of b; null where a side is empty. */
  readonly difference: number | null;
  readonly standardError: number | null;
  readonly degreesOfFreedom: number | null;
  readonly t: number | null;
  /** Two-sided. */
  readonly p: number | null;
  /** For the true difference, at the confidence asked for. */
  readonly interval: readonly [number, number] | null;
  /**
   * `too-few`: a side has fewer than two values. `no-spread`: neither side's values differ among themselves, so they say nothing
   * of how far another take would differ.
   */
  readonly lacking: "too-few" | "no-spread" | null;
}

/**
 * Welch's t: two means compared without the assumption that both sides scatter alike.
 *
 * Welch 1947 (Biometrika 34), degrees of freedom after Satterthwaite 1946. The values are the sample: one number a take, taken
 * independently; windows of one take are not.
 *
 * @param confidence - of the interval, between 0 and 1, both excluded
 * @throws AnalysisError `value-out-of-range` for another confidence
 * @example
 * ```ts
 * welchDifference([78.1, 78.9, 77.6, 78.4, 78.2], [79.6, 80.3, 79.1, 80.0, 79.9]).interval; // [-2.216, -0.864]
 * ```
 */
export function welchDifference(
  valuesA: readonly number[],
  valuesB: readonly number[],
  confidence = 0.95,
): WelchDifference {
  const a = sampleSpread(valuesA);
  const b = sampleSpread(valuesB);
  const difference = a.mean === null || b.mean === null ? null : a.mean - b.mean;
  const nothing = {
    a,
    b,
    difference,
    standardError: null,
    degreesOfFreedom: null,
    t: null,
    p: null,
    interval: null,
  };
  if (difference === null || a.standardDeviation === null || b.standardDeviation === null)
    return { ...nothing, lacking: "too-few" };
  const varianceA = a.standardDeviation ** 2 / a.count;
  const varianceB = b.standardDeviation ** 2 / b.count;
  const standardError = Math.sqrt(varianceA + varianceB);
  if (standardError === 0) return { ...nothing, lacking: "no-spread" };
  const degreesOfFreedom = welchDegreesOfFreedom(varianceA, a.count - 1, varianceB, b.count - 1);
  const t = difference / standardError;
  const half = standardError * tQuantile((1 + confidence) / 2, degreesOfFreedom);
  return {
    a,
    b,
    difference,
    standardError,
    degreesOfFreedom,
    t,
    p: tTwoSidedP(t, degreesOfFreedom),
    interval: [difference - half, difference + half],
    lacking: null,
  };
}
