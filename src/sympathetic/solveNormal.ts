import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";

/** Least squares with a spread known for some unknowns. */
export interface NormalSolution {
  readonly solution: Float64Array;
  /** Inverse of the normal matrix, row by row: times the variance of one value it is the covariance. Empty where not asked for. */
  readonly inverse: Float64Array;
}

/**
 * Solves least squares by its normal equations, each unknown drawn towards a value with a weight of its own.
 *
 * @param weights - 1 / variance of what is known of each unknown, in units of the variance of one value; 0 for nothing
 * @returns null where the columns don't determine the unknowns
 */
export function solveNormal(
  columns: readonly Float64Array[],
  values: Float64Array,
  weights: ArrayLike<number>,
  known: ArrayLike<number>,
  withInverse = false,
): NormalSolution | null {
  const size = columns.length;
  const scales = columns.map((column, k) => 1 / Math.sqrt(dot(column, column) + weights[k] || 1));
  const matrix = new Float64Array(size * size);
  const vector = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      const own = row === column ? weights[row] : 0;
      matrix[row * size + column] = (dot(columns[row], columns[column]) + own) * scales[row] * scales[column];
    }
    vector[row] = (dot(columns[row], values) + weights[row] * known[row]) * scales[row];
  }
  const factor = cholesky(matrix, size);
  if (factor === null) return null;
  const solution = backSolved(factor, forwardSolved(factor, vector)).map((value, k) => value * scales[k]);
  const inverse = new Float64Array(withInverse ? size * size : 0);
  if (!withInverse) return { solution, inverse };
  for (let row = 0; row < size; row++) {
    const unit = new Float64Array(size);
    unit[row] = 1;
    const solved = backSolved(factor, forwardSolved(factor, unit));
    for (let column = 0; column < size; column++) {
      inverse[row * size + column] = solved[column] * scales[row] * scales[column];
    }
  }
  return { solution, inverse };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
