// Symmetric positive definite equations (`statistics/cholesky`), matrices row by row.

/** Fills the lower triangle L with L L' = A; false where A is not positive definite. */
export function cholesky(matrix: usize, size: i32, factor: usize): bool {
  const width: usize = <usize>size << 3;
  memory.fill(factor, 0, <usize>size * width);
  for (let row: usize = 0; row < <usize>size; row++) {
    const start = factor + row * width;
    for (let column: usize = 0; column <= row; column++) {
      const other = factor + column * width;
      let rest = load<f64>(matrix + row * width + (column << 3));
      for (let k: usize = 0; k < column << 3; k += 8) rest -= load<f64>(start + k) * load<f64>(other + k);
      if (row > column) rest /= load<f64>(other + (column << 3));
      else if (rest > 0) rest = sqrt<f64>(rest);
      else return false;
      store<f64>(start + (column << 3), rest);
    }
  }
  return true;
}

/** Solves L z = column in its place. */
export function forwardSolve(factor: usize, size: i32, column: usize): void {
  const width: usize = <usize>size << 3;
  for (let row: usize = 0; row < <usize>size; row++) {
    const start = factor + row * width;
    let rest = load<f64>(column + (row << 3));
    for (let k: usize = 0; k < row << 3; k += 8) rest -= load<f64>(start + k) * load<f64>(column + k);
    store<f64>(column + (row << 3), rest / load<f64>(start + (row << 3)));
  }
}

/** Solves L' x = column in its place. */
export function backSolve(factor: usize, size: i32, column: usize): void {
  const width: usize = <usize>size << 3;
  for (let row = size - 1; row >= 0; row--) {
    const below = factor + (<usize>row << 3);
    let rest = load<f64>(column + (<usize>row << 3));
    for (let k: usize = <usize>row + 1; k < <usize>size; k++) rest -= load<f64>(below + k * width) * load<f64>(column + (k << 3));
    store<f64>(column + (<usize>row << 3), rest / load<f64>(below + <usize>row * width));
  }
}
