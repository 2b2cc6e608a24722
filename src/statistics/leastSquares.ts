/**
 * Ordinary least squares by the normal equations, for a handful of well-scaled columns.
 *
 * @param columns - one array a coefficient, each as long as `values`
 * @returns the coefficients, in the order of the columns; null where the columns don't determine them
 */
export function leastSquares(columns: readonly Float64Array[], values: Float64Array): Float64Array | null {
  const size = columns.length;
  const rows = columns.map((column) => {
    const row = new Float64Array(size + 1);
    for (let other = 0; other < size; other++) row[other] = dot(column, columns[other]);
    row[size] = dot(column, values);
    return row;
  });
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let r = pivot + 1; r < size; r++)
      if (Math.abs(rows[r][pivot]) > Math.abs(rows[best][pivot])) best = r;
    [rows[pivot], rows[best]] = [rows[best], rows[pivot]];
    if (!(Math.abs(rows[pivot][pivot]) > 1e-12)) return null;
    for (let r = pivot + 1; r < size; r++) {
      const factor = rows[r][pivot] / rows[pivot][pivot];
      for (let c = pivot; c <= size; c++) rows[r][c] -= factor * rows[pivot][c];
    }
  }
  const coefficients = new Float64Array(size);
  for (let r = size - 1; r >= 0; r--) {
    let rest = rows[r][size];
    for (let c = r + 1; c < size; c++) rest -= rows[r][c] * coefficients[c];
    coefficients[r] = rest / rows[r][r];
  }
  return coefficients;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
