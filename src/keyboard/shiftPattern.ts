import { median } from "../signal/median.js";
import { cholesky, forwardSolved } from "../statistics/cholesky.js";
import { tQuantile } from "../statistics/tQuantile.js";

/** A number with its 95 % interval. */
export interface Estimate {
  readonly value: number;
  readonly interval95: readonly [number, number];
}

/** What all keys have in common, in cents over the open string. */
export interface ShiftPattern {
  /** The same for all keys: nut, key pressure, or an open string that is out by itself; null where it is not shown. */
  readonly constantCents: Estimate | null;
  /** Factor of 2^(n/12) - 1, as a shift of the bridge makes it; null where it is not shown. */
  readonly bridgeCents: Estimate | null;
  /** Robust standard deviation of the keys from their places, and from the pattern. */
  readonly spreadCents: number;
  readonly leftCents: number;
}

/** With fewer keys a pattern is a guess. */
const LEAST_KEYS = 6;
/** A pattern must leave no more than this share of the spread; a second shift, no more than this share of what one leaves. */
const LARGEST_LEFT = 0.8;
const LARGEST_LEFT_OF_ONE = 0.85;
/** Less is not offered: it moves nut or bridge by 0.2 mm on a melody string, which no hand sets (our policy). */
const LEAST_SHIFT_CENTS = 1;
/** Tukey's biweight at 95 % efficiency. */
const TUNING = 4.685;
const STEPS = 30;

/**
 * The shifts of nut and bridge that explain the pattern of all keys best: robust least squares (Tukey's biweight, so that a
 * few turned tangents have no say) of the deviations on a constant, on 2^(n/12) - 1, and on both; intervals by Huber's formula
 * for the covariance (Huber 1981, Robust Statistics, section 7.6; from memory) and Student's t.
 *
 * All deviations are counted from one and the same open string, so its error does not average out over the keys: it is added
 * to the intervals as what a constant of that size would do to each shift.
 *
 * A shift is given only where its interval excludes 0, it is a cent or more (over an octave, for the bridge), and what it leaves
 * is notably less than the whole.
 *
 * @param keys - numbers of the keys, from 1
 * @param deviationCents - of each from its place over the open string
 * @param openHalfWidthCents - half the 95 % interval of the open string; 0 where the keys are counted from its target
 */
export function shiftPattern(
  keys: readonly number[],
  deviationCents: readonly number[],
  openHalfWidthCents = 0,
): ShiftPattern {
  const ones = keys.map(() => 1);
  const slopes = keys.map((key) => 2 ** (key / 12) - 1);
  const spreadCents = scaleOf(deviationCents);
  const nothing = { constantCents: null, bridgeCents: null, spreadCents, leftCents: spreadCents };
  if (keys.length < LEAST_KEYS) return nothing;
  const constant = fitted([ones], deviationCents, openHalfWidthCents);
  const bridge = fitted([slopes], deviationCents, openHalfWidthCents);
  const both = fitted([ones, slopes], deviationCents, openHalfWidthCents);
  const single = [constant, bridge]
    .filter((fit) => shown(fit) && fit.leftCents <= LARGEST_LEFT * spreadCents)
    .sort((a, b) => (a?.leftCents ?? 0) - (b?.leftCents ?? 0))[0];
  const leftBySingle = Math.min(constant?.leftCents ?? Infinity, bridge?.leftCents ?? Infinity, spreadCents);
  if (
    shown(both) &&
    both.leftCents <= LARGEST_LEFT * spreadCents &&
    both.leftCents <= LARGEST_LEFT_OF_ONE * leftBySingle
  ) {
    const [constantCents, bridgeCents] = both.estimates;
    return { constantCents, bridgeCents, spreadCents, leftCents: both.leftCents };
  }
  if (single === undefined || single === null) return nothing;
  const [estimate] = single.estimates;
  return single === constant
    ? { constantCents: estimate, bridgeCents: null, spreadCents, leftCents: single.leftCents }
    : { constantCents: null, bridgeCents: estimate, spreadCents, leftCents: single.leftCents };
}

function shown(fit: Fit | null): fit is Fit {
  if (fit === null) return false;
  return fit.estimates.every(isShown);
}

function isShown({ value, interval95: [low, high] }: Estimate): boolean {
  return Math.abs(value) >= LEAST_SHIFT_CENTS && (low > 0 || high < 0);
}

interface Fit {
  readonly estimates: readonly Estimate[];
  readonly leftCents: number;
}

/** Median of the absolute values, as the standard deviation of a normal distribution about 0. */
function scaleOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : 1.4826 * median(Float64Array.from(values, Math.abs));
}

function fitted(
  columns: readonly (readonly number[])[],
  values: readonly number[],
  openHalfWidthCents: number,
): Fit | null {
  const count = values.length;
  const size = columns.length;
  let weights = new Float64Array(count).fill(1);
  let found = weighted(columns, values, weights);
  let scale = 0;
  for (let step = 0; step < STEPS && found !== null; step++) {
    const left = rest(columns, values, found.coefficients);
    // As many coefficients as were fitted make the smallest deviations too small.
    scale = Math.max(scaleOf(left) * Math.sqrt(count / (count - size)), 1e-6);
    weights = Float64Array.from(left, (value) => Math.max(0, 1 - (value / (TUNING * scale)) ** 2) ** 2);
    found = weighted(columns, values, weights);
  }
  if (found === null) return null;
  const left = rest(columns, values, found.coefficients);
  let squares = 0;
  let slope = 0;
  for (const value of left) {
    const u = (value / (TUNING * scale)) ** 2;
    if (u >= 1) continue;
    squares += (value * (1 - u) ** 2) ** 2;
    slope += (1 - u) * (1 - 5 * u);
  }
  slope /= count;
  const plain = weighted(columns, values, new Float64Array(count).fill(1));
  if (plain === null || !(slope > 0)) return null;
  const correction = 1 + (size / count) * ((1 - slope) / slope);
  const variance = (correction ** 2 * squares) / (count - size) / slope ** 2;
  const reach = tQuantile(0.975, count - size);
  const ones = values.map(() => 1);
  const byOpen = weighted(columns, ones, weights)?.coefficients ?? new Float64Array(size);
  return {
    leftCents: scale,
    estimates: Array.from(found.coefficients, (value, j) => {
      const half = Math.hypot(
        reach * Math.sqrt(variance * plain.inverseDiagonal[j]),
        byOpen[j] * openHalfWidthCents,
      );
      return { value, interval95: [value - half, value + half] };
    }),
  };
}

function rest(
  columns: readonly (readonly number[])[],
  values: readonly number[],
  coefficients: Float64Array,
): number[] {
  return values.map((value, i) =>
    columns.reduce((left, column, j) => left - coefficients[j] * column[i], value),
  );
}

function weighted(
  columns: readonly (readonly number[])[],
  values: readonly number[],
  weights: Float64Array,
): { readonly coefficients: Float64Array; readonly inverseDiagonal: Float64Array } | null {
  const size = columns.length;
  const sum = (a: readonly number[], b: readonly number[]) =>
    a.reduce((total, value, i) => total + weights[i] * value * b[i], 0);
  const matrix = Float64Array.from(columns.flatMap((a) => columns.map((b) => sum(a, b))));
  const factor = cholesky(matrix, size);
  if (factor === null) return null;
  // The inverse by its columns: L z = e, and the rows of z times each other are its entries.
  const parts = columns.map((_, j) => {
    const unit = new Float64Array(size);
    unit[j] = 1;
    return forwardSolved(factor, unit);
  });
  const product = (a: Float64Array, b: Float64Array) =>
    a.reduce((total, value, k) => total + value * b[k], 0);
  const right = columns.map((column) => sum(column, values));
  return {
    coefficients: Float64Array.from(parts, (part) =>
      parts.reduce((total, other, k) => total + product(part, other) * right[k], 0),
    ),
    inverseDiagonal: Float64Array.from(parts, (part) => product(part, part)),
  };
}
