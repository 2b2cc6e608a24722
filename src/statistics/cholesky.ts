import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/**
 * Cholesky factor of a symmetric positive definite matrix: the lower triangle L with L L' = A.
 *
 * @param matrix - row by row, size * size; only its lower triangle is read
 * @returns row by row, the upper triangle left 0; null where the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, size: number): Float64Array | null {
  if (size === 0) return new Float64Array(0);
  const rows = new KernelRows(ScratchUser.matrix, 2, size * size);
  rows.put(0, matrix);
  return kernels().functions.cholesky(rows.place(0), size, rows.place(1)) === 1 ? rows.copy(1) : null;
}

/** Solves L z = column by forward substitution, L a factor of {@link cholesky}. */
export function forwardSolved(factor: Float64Array, column: Float64Array): Float64Array {
  return solvedBy("forwardSolve", factor, column);
}

/** Solves L' x = column by back substitution, L a factor of {@link cholesky}. */
export function backSolved(factor: Float64Array, column: Float64Array): Float64Array {
  return solvedBy("backSolve", factor, column);
}

function solvedBy(
  name: "forwardSolve" | "backSolve",
  factor: Float64Array,
  column: Float64Array,
): Float64Array {
  const size = column.length;
  if (size === 0) return new Float64Array(0);
  const rows = new KernelRows(ScratchUser.matrix, 2, size * size);
  rows.put(0, factor);
  rows.put(1, column);
  kernels().functions[name](rows.place(0), size, rows.place(1));
  return rows.copy(1, size);
}
