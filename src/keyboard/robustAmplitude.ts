import { median } from "../signal/median.js";
import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";

const STEPS = 6;
const RIDGE = 1e-3;
/** Blocks this many times further out than the median one hold a note of the scale (Tukey's biweight). */
const OUTSIDE = 4;

/** Complex values, one a block of time. */
export interface Blocks {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/**
 * Amplitude of the first of some columns in a series at evenly spaced centres, by complex least squares on all of them over
 * the blocks around each, made robust by Tukey's biweight.
 *
 * @param spacing - blocks from one centre to the next
 * @param reach - blocks to either side of a centre
 */
export function robustAmplitude(
  { real, imaginary }: Blocks,
  columns: readonly Blocks[],
  centres: number,
  spacing: number,
  reach: number,
): Blocks {
  const blocks = real.length;
  const atReal = new Float64Array(centres);
  const atImaginary = new Float64Array(centres);
  for (let c = 0; c < centres; c++) {
    const middle = Math.min(blocks - 1, Math.round(c * spacing));
    // Towards the ends the stretch keeps its length, so that a note at the end does not fill much of it.
    const from = Math.max(0, Math.min(middle - reach, blocks - 2 * reach));
    const to = Math.min(blocks, Math.max(middle + reach, 2 * reach));
    const weights = new Float64Array(to - from).fill(1);
    const away = new Float64Array(to - from);
    const restX = new Float64Array(to - from);
    const restY = new Float64Array(to - from);
    let found = complexLeastSquares(real, imaginary, columns, from, weights);
    for (let step = 0; step < STEPS && found !== null; step++) {
      restX.set(real.subarray(from, to));
      restY.set(imaginary.subarray(from, to));
      for (const [j, column] of columns.entries()) {
        takeOut(restX, restY, column, from, found[2 * j], found[2 * j + 1]);
      }
      for (let i = 0; i < away.length; i++) away[i] = Math.sqrt(restX[i] * restX[i] + restY[i] * restY[i]);
      const limit = OUTSIDE * median(away) + 1e-12;
      for (let i = 0; i < away.length; i++) {
        const share = away[i] / limit;
        weights[i] = share >= 1 ? 0 : (1 - share * share) ** 2;
      }
      found = complexLeastSquares(real, imaginary, columns, from, weights) ?? found;
    }
    atReal[c] = found?.[0] ?? 0;
    atImaginary[c] = found?.[1] ?? 0;
  }
  return { real: atReal, imaginary: atImaginary };
}

/** Takes a column, from one block on, times an amplitude out of values. */
function takeOut(
  x: Float64Array,
  y: Float64Array,
  { real, imaginary }: Blocks,
  from: number,
  a: number,
  b: number,
): void {
  for (let i = 0; i < x.length; i++) {
    x[i] -= real[from + i] * a - imaginary[from + i] * b;
    y[i] -= real[from + i] * b + imaginary[from + i] * a;
  }
}

/** Amplitudes of the columns, real and imaginary part in turn, by the normal equations of a few complex unknowns. */
function complexLeastSquares(
  real: Float64Array,
  imaginary: Float64Array,
  columns: readonly Blocks[],
  from: number,
  weights: Float64Array,
): Float64Array | null {
  const size = 2 * columns.length;
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (const [j, p] of columns.entries()) {
    for (let k = j; k < columns.length; k++) {
      const [a, b] = innerProduct(p, columns[k], from, weights);
      // A little of each diagonal keeps two that can't be told apart from running away against each other.
      const share = j === k ? 1 + RIDGE : 1;
      for (const [row, column, sign] of [
        [j, k, 1],
        [k, j, -1],
      ]) {
        matrix[2 * row * size + 2 * column] = a * share;
        matrix[2 * row * size + 2 * column + 1] = -sign * b;
        matrix[(2 * row + 1) * size + 2 * column] = sign * b;
        matrix[(2 * row + 1) * size + 2 * column + 1] = a * share;
      }
    }
    const [a, b] = innerProduct(p, { real, imaginary }, from, weights);
    right[2 * j] = a;
    right[2 * j + 1] = b;
  }
  const factor = cholesky(matrix, size);
  return factor === null ? null : backSolved(factor, forwardSolved(factor, right));
}

/** Weighted inner product over the blocks from one on, the first conjugated. */
function innerProduct(
  p: Blocks,
  q: Blocks,
  from: number,
  weights: Float64Array,
): [real: number, imaginary: number] {
  let a = 0;
  let b = 0;
  for (let i = 0; i < weights.length; i++) {
    const m = from + i;
    a += weights[i] * (p.real[m] * q.real[m] + p.imaginary[m] * q.imaginary[m]);
    b += weights[i] * (p.real[m] * q.imaginary[m] - p.imaginary[m] * q.real[m]);
  }
  return [a, b];
}
