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
    let found = complexLeastSquares(real, imaginary, columns, from, weights);
    for (let step = 0; step < STEPS && found !== null; step++) {
      for (let i = 0; i < away.length; i++) {
        let x = real[from + i];
        let y = imaginary[from + i];
        for (const [j, column] of columns.entries()) {
          const [a, b] = [found[2 * j], found[2 * j + 1]];
          x -= column.real[from + i] * a - column.imaginary[from + i] * b;
          y -= column.real[from + i] * b + column.imaginary[from + i] * a;
        }
        away[i] = Math.hypot(x, y);
      }
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
    for (const [k, q] of columns.entries()) {
      let a = 0;
      let b = 0;
      for (let i = 0; i < weights.length; i++) {
        const m = from + i;
        a += weights[i] * (p.real[m] * q.real[m] + p.imaginary[m] * q.imaginary[m]);
        b += weights[i] * (p.real[m] * q.imaginary[m] - p.imaginary[m] * q.real[m]);
      }
      // A little of each diagonal keeps two that can't be told apart from running away against each other.
      if (j === k) a *= 1 + RIDGE;
      matrix[2 * j * size + 2 * k] = a;
      matrix[2 * j * size + 2 * k + 1] = -b;
      matrix[(2 * j + 1) * size + 2 * k] = b;
      matrix[(2 * j + 1) * size + 2 * k + 1] = a;
    }
    for (let i = 0; i < weights.length; i++) {
      const m = from + i;
      right[2 * j] += weights[i] * (p.real[m] * real[m] + p.imaginary[m] * imaginary[m]);
      right[2 * j + 1] += weights[i] * (p.real[m] * imaginary[m] - p.imaginary[m] * real[m]);
    }
  }
  const factor = cholesky(matrix, size);
  return factor === null ? null : backSolved(factor, forwardSolved(factor, right));
}
