import { burgFilter } from "../statistics/burgFilter.js";
import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";

/** A linear fit to a series whose rest wanders slowly. */
export interface WhitenedFit {
  readonly coefficients: Float64Array;
  /** Row by row; of the coefficients. */
  readonly covariance: Float64Array;
  readonly degreesOfFreedom: number;
  /** Filter that makes the rest white. */
  readonly filter: Float64Array;
  /** The rest after that filter, and its variance. */
  readonly innovations: Float64Array;
  readonly variance: number;
  /** ln of the likelihood, up to a constant that depends on the series alone. */
  readonly logLikelihood: number;
}

/** Order of the autoregression: enough for a slow wander with noise of differentiated phase on top. */
export const FILTER_ORDER = 4;
/** The filter comes from the rest, and the rest from the filter. */
const ROUNDS = 3;

/**
 * Generalised least squares: rest and columns go through the filter that makes the rest white, and the filter is made
 * from the rest, in turn (Cochrane & Orcutt 1949, of order 4).
 *
 * @param known - a filter to be kept; made from the rest where it is not given
 * @returns null where the columns don't determine the coefficients
 */
export function whitenedFit(
  values: Float64Array,
  columns: readonly Float64Array[],
  known: Float64Array | null = null,
): WhitenedFit | null {
  let filter = known ?? Float64Array.of(1);
  for (let round = known === null ? 0 : ROUNDS; ; round++) {
    const fit = fitThrough(values, columns, filter);
    if (fit === null || round === ROUNDS) return fit;
    filter = burgFilter(restOf(values, columns, fit.coefficients), FILTER_ORDER);
  }
}

/** What a fit leaves of the series itself. */
export function restOf(
  values: Float64Array,
  columns: readonly Float64Array[],
  coefficients: Float64Array,
): Float64Array {
  const rest = values.slice();
  for (let c = 0; c < columns.length; c++) {
    const column = columns[c];
    for (let m = 0; m < rest.length; m++) rest[m] -= coefficients[c] * column[m];
  }
  return rest;
}

/** A series through a filter; the first values, which it can't reach, are left out. */
export function filtered(values: Float64Array, filter: Float64Array): Float64Array {
  const skip = filter.length - 1;
  const out = new Float64Array(values.length - skip);
  for (let k = 0; k <= skip; k++) {
    const weight = filter[k];
    for (let m = 0; m < out.length; m++) out[m] += weight * values[m + skip - k];
  }
  return out;
}

function fitThrough(
  values: Float64Array,
  columns: readonly Float64Array[],
  filter: Float64Array,
): WhitenedFit | null {
  const size = columns.length;
  const white = columns.map((column) => filtered(column, filter));
  const target = filtered(values, filter);
  const count = target.length;
  const degreesOfFreedom = count - size - (filter.length - 1);
  if (degreesOfFreedom < 8) return null;
  const gram = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (let r = 0; r < size; r++) {
    for (let c = 0; c <= r; c++) gram[r * size + c] = dot(white[r], white[c]);
    right[r] = dot(white[r], target);
  }
  const factor = cholesky(gram, size);
  if (factor === null) return null;
  const coefficients = backSolved(factor, forwardSolved(factor, right));
  const innovations = restOf(target, white, coefficients);
  const squares = dot(innovations, innovations);
  const variance = Math.max(squares / degreesOfFreedom, 1e-18);
  const covariance = new Float64Array(size * size);
  for (let c = 0; c < size; c++) {
    const unit = new Float64Array(size);
    unit[c] = 1;
    const solved = backSolved(factor, forwardSolved(factor, unit));
    for (let r = 0; r < size; r++) covariance[r * size + c] = solved[r] * variance;
  }
  const logLikelihood = -0.5 * count * Math.log(Math.max(squares / count, 1e-18));
  return { coefficients, covariance, degreesOfFreedom, filter, innovations, variance, logLikelihood };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
