/**
 * Solves a symmetric positive definite system in place by LDL^T.
 *
 * @param matrix - row by row, the lower triangle is read and overwritten
 * @param vector - right-hand side; holds the solution afterwards. An unknown that nothing tells of becomes 0.
 */
export function solveSymmetric(matrix: Float64Array, vector: Float64Array): void {
  const size = vector.length;
  for (let j = 0; j < size; j++) {
    let pivot = matrix[j * size + j];
    for (let k = 0; k < j; k++) pivot -= matrix[j * size + k] ** 2 * matrix[k * size + k];
    matrix[j * size + j] = pivot;
    for (let i = j + 1; i < size; i++) {
      let value = matrix[i * size + j];
      for (let k = 0; k < j; k++) value -= matrix[i * size + k] * matrix[j * size + k] * matrix[k * size + k];
      matrix[i * size + j] = pivot > 0 ? value / pivot : 0;
    }
  }
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) vector[i] -= matrix[i * size + k] * vector[k];
  }
  for (let i = 0; i < size; i++) {
    const pivot = matrix[i * size + i];
    vector[i] = pivot > 0 ? vector[i] / pivot : 0;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) vector[i] -= matrix[k * size + i] * vector[k];
  }
}
