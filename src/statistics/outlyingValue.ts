import { sampleSpread } from "./sampleSpread.js";
import { tQuantile } from "./tQuantile.js";

/**
 * Which of a few values stands apart from the others: Grubbs' two-sided test (Grubbs 1969, Technometrics 11) at 5 %.
 *
 * The largest distance from the mean, in standard deviations, against (n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2)), t being
 * Student's quantile at 1 - 0.05 / (2 n) with n - 2 degrees of freedom. Three values can never show it.
 *
 * @returns its index; null where none stands apart
 */
export function outlyingValue(values: readonly number[]): number | null {
  const { count, mean, standardDeviation } = sampleSpread(values);
  if (count < 4 || mean === null || standardDeviation === null || standardDeviation === 0) return null;
  const distances = values.map((value) => Math.abs(value - mean) / standardDeviation);
  const furthest = Math.max(...distances);
  return furthest > grubbsLimit(count) ? distances.indexOf(furthest) : null;
}

function grubbsLimit(count: number): number {
  const t = tQuantile(1 - 0.05 / (2 * count), count - 2);
  return ((count - 1) / Math.sqrt(count)) * Math.sqrt(t ** 2 / (count - 2 + t ** 2));
}
