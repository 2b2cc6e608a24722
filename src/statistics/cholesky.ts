/**
 * Cholesky factor of a symmetric positive definite matrix: the lower triangle L with L L' = A.
 *
 * @param matrix - row by row, size * size; only its lower triangle is read
 * @returns row by row, the upper triangle left 0; null where the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, size: number): Float64Array | null {
  const factor = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    const start = row * size;
    for (let column = 0; column <= row; column++) {
      const other = column * size;
      let rest = matrix[start + column];
      for (let k = 0; k < column; k++) rest -= factor[start + k] * factor[other + k];
      if (row > column) factor[row * size + column] = rest / factor[column * size + column];
      else if (rest > 0) factor[row * size + row] = Math.sqrt(rest);
      else return null;
    }
  }
  return factor;
}

/** Solves L z = column by forward substitution, L a factor of {@link cholesky}. */
export function forwardSolved(factor: Float64Array, column: Float64Array): Float64Array {
  const size = column.length;
  const solved = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    const start = row * size;
    let rest = column[row];
    for (let k = 0; k < row; k++) rest -= factor[start + k] * solved[k];
    solved[row] = rest / factor[start + row];
  }
  return solved;
}

/** Solves L' x = column by back substitution, L a factor of {@link cholesky}. */
export function backSolved(factor: Float64Array, column: Float64Array): Float64Array {
  const size = column.length;
  const solved = new Float64Array(size);
  for (let row = size - 1; row >= 0; row--) {
    let rest = column[row];
    for (let k = row + 1; k < size; k++) rest -= factor[k * size + row] * solved[k];
    solved[row] = rest / factor[row * size + row];
  }
  return solved;
}
