/** Mean and standard deviation of a sample. */
export interface SampleSpread {
  readonly count: number;
  /** Null for no values. */
  readonly mean: number | null;
  /** With count - 1 below; null for fewer than two values; exactly 0 where they differ by rounding only. */
  readonly standardDeviation: number | null;
}

/** Values that differ by less than this share of their size differ by rounding. */
const ROUNDING = 8 * Number.EPSILON;

/** Mean and standard deviation of independent values. */
export function sampleSpread(values: readonly number[]): SampleSpread {
  const count = values.length;
  if (count === 0) return { count, mean: null, standardDeviation: null };
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  if (count === 1) return { count, mean, standardDeviation: null };
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const standardDeviation = Math.sqrt(squares / (count - 1));
  const largest = Math.max(...values.map(Math.abs));
  return { count, mean, standardDeviation: standardDeviation <= ROUNDING * largest ? 0 : standardDeviation };
}
