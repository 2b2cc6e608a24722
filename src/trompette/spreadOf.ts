import { sampleSpread } from "../statistics/sampleSpread.js";
import { spreadInterval } from "../statistics/spreadInterval.js";
import type { Spread } from "./TrompetteReading.js";

const LEAST_STROKES = 3;

/** Standard deviation of values with its interval; null for fewer than three. */
export function spreadOf(values: readonly number[]): Spread | null {
  const { standardDeviation } = sampleSpread(values);
  if (standardDeviation === null || values.length < LEAST_STROKES) return null;
  const interval95 = spreadInterval(standardDeviation, values.length);
  return interval95 === null ? null : { standardDeviation, interval95 };
}
