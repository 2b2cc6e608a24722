import { median } from "../signal/median.js";
import { tQuantile } from "../statistics/tQuantile.js";
import type { StrokeMean } from "./TrompetteReading.js";

/** What one partial says of a difference of pitch. */
export interface Estimate {
  /** Number of the partial. */
  readonly number: number;
  readonly value: number;
  /** By how much it scatters over the strokes; null where there are too few. */
  readonly standardError: number | null;
}

/** No partial counts much more than the others: what a room does to it shows in no scatter. */
const LEAST_ERROR_CENTS = 1;
const UNKNOWN_ERROR_CENTS = 3;
/** The pitch follows the buzz in some shape that is not known: by this share of the difference readings were off for it in trials. */
const SHAPE_SHARE = 0.12;
/** A median of normal values scatters by so much more than their mean, and their median distance is so much less than a deviation. */
const MEDIAN_LOSS = 1.2533;
const MEDIAN_OF_GAUSSIAN = 0.6745;

/**
 * The median of what the partials say, each counting by its scatter over the strokes; its interval from how far they lie apart.
 *
 * In a lively room one partial may be far off, since the room turns its phase as the pitch moves; a median does not mind.
 *
 * @param ownMoveCents - how far the pitch moves without buzz: that of it which keeps time with the strokes can't be told from them
 * @returns null for no partial; no interval where neither partials nor strokes are enough
 */
export function combinedEstimate(estimates: readonly Estimate[], ownMoveCents: number): StrokeMean | null {
  if (estimates.length === 0) return null;
  const weights = estimates.map(
    ({ standardError }) => 1 / (LEAST_ERROR_CENTS ** 2 + (standardError ?? UNKNOWN_ERROR_CENTS) ** 2),
  );
  const mean = weightedMedian(estimates, weights);
  const errors = estimates.flatMap(({ standardError }) => standardError ?? []);
  if (errors.length === 0) return { mean, interval95: null };
  const count = estimates.length;
  const apart = median(estimates.map(({ value }) => Math.abs(value - mean))) / MEDIAN_OF_GAUSSIAN;
  const between = count < 2 ? 0 : (tQuantile(0.975, count - 1) * MEDIAN_LOSS * apart) / Math.sqrt(count);
  const within = 2 * median(errors);
  const half = Math.hypot(Math.max(between, within), ownMoveCents, SHAPE_SHARE * mean);
  return { mean, interval95: [mean - half, mean + half] };
}

/** The value at which half of the weight is reached, on a straight line between the two around it. */
function weightedMedian(estimates: readonly Estimate[], weights: readonly number[]): number {
  const rows = estimates
    .map(({ value }, i) => ({ value, weight: weights[i] }))
    .sort((a, b) => a.value - b.value);
  const half = rows.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let before = 0;
  let last = rows[0];
  let lastMiddle = 0;
  for (const row of rows) {
    const middle = before + row.weight / 2;
    if (middle >= half) {
      if (middle === lastMiddle || row === rows[0]) return row.value;
      return last.value + ((row.value - last.value) * (half - lastMiddle)) / (middle - lastMiddle);
    }
    before += row.weight;
    last = row;
    lastMiddle = middle;
  }
  return last.value;
}
