import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { addScaled } from "../signal/addScaled.js";
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
/**
 * A column takes out what the background has at its own rate, and the filter, made from what is left, takes the background for
 * weaker there. Simulated on Gauss-Markov series of 8 to 20 s with 11 columns, that makes the variance 1.25 to 1.05 times too
 * small, and a path that is not quite right adds to it; as much as if each column cost five degrees of freedom.
 */
const PER_COLUMN = 5;
/** The filter comes from the rest, and the rest from the filter: this often, where nothing is known of it. */
const ROUNDS = 3;
const NO_FILTER = Float64Array.of(1);

/**
 * Generalised least squares: rest and columns go through the filter that makes the rest white, and the filter is made
 * from the rest, in turn (Cochrane & Orcutt 1949, of order 4).
 *
 * @param start - a filter to begin with
 * @param rounds - how often it is made anew; 0 keeps it
 * @returns null where the columns don't determine the coefficients
 */
export function whitenedFit(
  values: Float64Array,
  columns: readonly Float64Array[],
  start: Float64Array = NO_FILTER,
  rounds = ROUNDS,
): WhitenedFit | null {
  let filter = start;
  for (let round = 0; ; round++) {
    const fit = fitThrough(values, columns, filter);
    if (fit === null || round === rounds) return fit;
    filter = filterOf(values, columns, fit, FILTER_ORDER);
  }
}

/** The filter that makes white what a fit leaves. */
export function filterOf(
  values: Float64Array,
  columns: readonly Float64Array[],
  { coefficients }: WhitenedFit,
  order: number,
): Float64Array {
  return burgFilter(restOf(values, columns, coefficients), order);
}

/** What a fit leaves of the series itself. */
export function restOf(
  values: Float64Array,
  columns: readonly Float64Array[],
  coefficients: Float64Array,
): Float64Array {
  const rest = values.slice();
  for (let c = 0; c < columns.length; c++) addScaled(rest, columns[c], -coefficients[c]);
  return rest;
}

/** A series through a filter; the first values, which it can't reach, are left out. */
export function filtered(values: Float64Array, filter: Float64Array): Float64Array {
  const order = filter.length - 1;
  const rows = new KernelRows(ScratchUser.wheel, 3, Math.max(values.length, filter.length));
  rows.put(0, values);
  rows.put(1, filter);
  kernels().functions.filterSeries(rows.place(0), values.length, rows.place(1), order, rows.place(2));
  return rows.copy(2, values.length - order);
}

function fitThrough(
  values: Float64Array,
  columns: readonly Float64Array[],
  filter: Float64Array,
): WhitenedFit | null {
  const size = columns.length;
  const count = values.length - (filter.length - 1);
  const degreesOfFreedom = count - PER_COLUMN * size - (filter.length - 1);
  if (degreesOfFreedom < 8) return null;
  const { white, gram, right } = whitened(values, columns, filter);
  const factor = cholesky(gram, size);
  if (factor === null) return null;
  const coefficients = backSolved(factor, forwardSolved(factor, right));
  const { functions } = kernels();
  const target = white.place(size);
  for (let c = 0; c < size; c++) functions.addScaled(white.place(c), -coefficients[c], count, target);
  const innovations = white.copy(size, count);
  // Less none of anything: the sum of its own squares.
  const squares = functions.strayEnergy(target, target, 0, count);
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

/** Columns and series, in this order, through the filter, and their inner products, by a kernel. */
function whitened(values: Float64Array, columns: readonly Float64Array[], filter: Float64Array) {
  const size = columns.length;
  const { length } = values;
  const plain = new KernelRows(ScratchUser.wheel, size + 2, length);
  const white = new KernelRows(ScratchUser.whitening, size + 1, length);
  const products = new KernelRows(ScratchUser.knots, 1, (size + 1) ** 2);
  for (let c = 0; c < size; c++) plain.put(c, columns[c]);
  plain.put(size, values);
  plain.put(size + 1, filter);
  // biome-ignore format: arguments of a kernel
  kernels().functions.whitenedProducts(plain.place(0), size + 1, length, plain.stride, plain.place(size + 1), filter.length - 1, white.place(0), products.place(0));
  const gram = new Float64Array(size * size);
  for (let r = 0; r < size; r++) {
    for (let c = 0; c <= r; c++) gram[r * size + c] = products.value(0, r * (size + 1) + c);
  }
  const right = products.copy(0).subarray(size * (size + 1), size * (size + 1) + size);
  return { white, gram, right };
}
