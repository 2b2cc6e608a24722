// Least squares over the frames of a partial (`partials/joint/separatePartial`), two frames at a time. A column is a real and
// an imaginary part, each of `count` values (f64); `count` is even, the last frame may be filled with zeros.

// @ts-ignore: decorator
@inline
function sumOf(pair: v128): f64 {
  return f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1);
}

/**
 * How a neighbour of amplitude 1 looks in the frames of a partial: gain * level * conj(theirs) * mine * turn^frame.
 *
 * @param mine - interleaved, as is `theirs`
 */
export function neighbourColumn(
  mine: usize,
  theirs: usize,
  gain: usize,
  level: f64,
  turnReal: f64,
  turnImaginary: f64,
  count: i32,
  real: usize,
  imaginary: usize,
): void {
  const stepReal = f64x2.splat(turnReal * turnReal - turnImaginary * turnImaginary);
  const stepImaginary = f64x2.splat(2 * turnReal * turnImaginary);
  let c = f64x2(level, level * turnReal);
  let s = f64x2(0, level * turnImaginary);
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 16) {
    const mine0 = v128.load(mine + 2 * at);
    const mine1 = v128.load(mine + 2 * at, 16);
    const theirs0 = v128.load(theirs + 2 * at);
    const theirs1 = v128.load(theirs + 2 * at, 16);
    const p = v128.shuffle<f64>(mine0, mine1, 0, 2);
    const q = v128.shuffle<f64>(mine0, mine1, 1, 3);
    const x = v128.shuffle<f64>(theirs0, theirs1, 0, 2);
    const y = v128.shuffle<f64>(theirs0, theirs1, 1, 3);
    const a = f64x2.add(f64x2.mul(p, x), f64x2.mul(q, y));
    const b = f64x2.sub(f64x2.mul(q, x), f64x2.mul(p, y));
    const g = v128.load(gain + at);
    v128.store(real + at, f64x2.mul(g, f64x2.sub(f64x2.mul(a, c), f64x2.mul(b, s))));
    v128.store(imaginary + at, f64x2.mul(g, f64x2.add(f64x2.mul(a, s), f64x2.mul(b, c))));
    const next = f64x2.sub(f64x2.mul(c, stepReal), f64x2.mul(s, stepImaginary));
    s = f64x2.add(f64x2.mul(c, stepImaginary), f64x2.mul(s, stepReal));
    c = next;
  }
}

/** Weighted inner product of two columns, the first conjugated: real and imaginary part at `result`. */
export function innerProduct(
  aReal: usize,
  aImaginary: usize,
  bReal: usize,
  bImaginary: usize,
  weights: usize,
  count: i32,
  result: usize,
): void {
  let real = f64x2.splat(0);
  let imaginary = f64x2.splat(0);
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 16) {
    const weight = v128.load(weights + at);
    const a = f64x2.mul(weight, v128.load(aReal + at));
    const b = f64x2.mul(weight, v128.load(aImaginary + at));
    const x = v128.load(bReal + at);
    const y = v128.load(bImaginary + at);
    real = f64x2.add(real, f64x2.add(f64x2.mul(a, x), f64x2.mul(b, y)));
    imaginary = f64x2.add(imaginary, f64x2.sub(f64x2.mul(a, y), f64x2.mul(b, x)));
  }
  store<f64>(result, sumOf(real));
  store<f64>(result, sumOf(imaginary), 8);
}

/**
 * Amplitudes of `size` columns by weighted least squares: the normal equations, by Gauss-Jordan elimination.
 *
 * @param columns - real and imaginary parts by turns, `count` values each, as the values to be fitted
 * @param ridge - share added to the diagonal, so that of two columns that are the same each gets half
 * @param rows - room for `size` * (`size` + 1) complex values
 * @param amplitudes - filled, interleaved
 * @returns the largest squared coherence of the first column with another
 */
export function solveColumns(
  columns: usize,
  size: i32,
  real: usize,
  imaginary: usize,
  weights: usize,
  count: i32,
  ridge: f64,
  rows: usize,
  amplitudes: usize,
): f64 {
  const next: usize = <usize>count << 3;
  const width: usize = (<usize>size + 1) << 4;
  for (let r: usize = 0; r < <usize>size; r++) {
    const column = columns + 2 * r * next;
    const row = rows + r * width;
    for (let c = r; c <= <usize>size; c++) {
      const cell = row + (c << 4);
      if (c === <usize>size) {
        innerProduct(column, column + next, real, imaginary, weights, count, cell);
        continue;
      }
      const other = columns + 2 * c * next;
      innerProduct(column, column + next, other, other + next, weights, count, cell);
      const mirror = rows + c * width + (r << 4);
      store<f64>(mirror, load<f64>(cell));
      store<f64>(mirror, c === r ? load<f64>(cell, 8) : -load<f64>(cell, 8), 8);
    }
  }
  let overlap: f64 = 0;
  for (let c: usize = 1; c < <usize>size; c++) {
    const norm = load<f64>(rows) * load<f64>(rows + c * width + (c << 4));
    const a = load<f64>(rows + (c << 4));
    const b = load<f64>(rows + (c << 4), 8);
    if (norm > 0) overlap = max<f64>(overlap, (a * a + b * b) / norm);
  }
  for (let r: usize = 0; r < <usize>size; r++) {
    const cell = rows + r * width + (r << 4);
    store<f64>(cell, load<f64>(cell) * (1 + ridge));
  }
  for (let p: usize = 0; p < <usize>size; p++) {
    const pivot = rows + p * width;
    const pivotReal = load<f64>(pivot + (p << 4));
    const pivotImaginary = load<f64>(pivot + (p << 4), 8);
    const norm = max<f64>(pivotReal * pivotReal + pivotImaginary * pivotImaginary, 1e-300);
    for (let r: usize = 0; r < <usize>size; r++) {
      if (r === p) continue;
      const row = rows + r * width;
      const a = load<f64>(row + (p << 4));
      const b = load<f64>(row + (p << 4), 8);
      const factorReal = (a * pivotReal + b * pivotImaginary) / norm;
      const factorImaginary = (b * pivotReal - a * pivotImaginary) / norm;
      for (let at = p << 4; at < width; at += 16) {
        const x = load<f64>(pivot + at);
        const y = load<f64>(pivot + at, 8);
        store<f64>(row + at, load<f64>(row + at) - (factorReal * x - factorImaginary * y));
        store<f64>(row + at, load<f64>(row + at, 8) - (factorReal * y + factorImaginary * x), 8);
      }
    }
  }
  for (let p: usize = 0; p < <usize>size; p++) {
    const row = rows + p * width;
    const a = load<f64>(row + (p << 4));
    const b = load<f64>(row + (p << 4), 8);
    const x = load<f64>(row + width - 16);
    const y = load<f64>(row + width - 16, 8);
    const norm = max<f64>(a * a + b * b, 1e-300);
    store<f64>(amplitudes + (p << 4), (x * a + y * b) / norm);
    store<f64>(amplitudes + (p << 4), (y * a - x * b) / norm, 8);
  }
  return overlap;
}

/** Takes a column times a complex amplitude out of the values. */
export function takeOut(
  real: usize,
  imaginary: usize,
  columnReal: usize,
  columnImaginary: usize,
  amplitudeReal: f64,
  amplitudeImaginary: f64,
  count: i32,
): void {
  const a = f64x2.splat(amplitudeReal);
  const b = f64x2.splat(amplitudeImaginary);
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 16) {
    const x = v128.load(columnReal + at);
    const y = v128.load(columnImaginary + at);
    v128.store(
      real + at,
      f64x2.sub(v128.load(real + at), f64x2.sub(f64x2.mul(a, x), f64x2.mul(b, y))),
    );
    v128.store(
      imaginary + at,
      f64x2.sub(v128.load(imaginary + at), f64x2.add(f64x2.mul(a, y), f64x2.mul(b, x))),
    );
  }
}

/** Sum of the squares of what is left of the values once a real column times a complex amplitude is taken out. */
export function restEnergy(
  real: usize,
  imaginary: usize,
  column: usize,
  amplitudeReal: f64,
  amplitudeImaginary: f64,
  count: i32,
): f64 {
  const a = f64x2.splat(amplitudeReal);
  const b = f64x2.splat(amplitudeImaginary);
  let sum = f64x2.splat(0);
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 16) {
    const gain = v128.load(column + at);
    const x = f64x2.sub(v128.load(real + at), f64x2.mul(gain, a));
    const y = f64x2.sub(v128.load(imaginary + at), f64x2.mul(gain, b));
    sum = f64x2.add(sum, f64x2.add(f64x2.mul(x, x), f64x2.mul(y, y)));
  }
  return sumOf(sum);
}

/**
 * Adds what one partial says of the phases and gains of `strings` strings (`partials/joint/followUnison`) to the normal
 * equations of every frame: of 2 * `strings` unknowns, phase and gain of each string by turns.
 *
 * @param columns - of each string, real and imaginary part one after another
 * @param amplitudes - of each string, real and imaginary part
 * @param normal - size * size arrays of `count` values one after another; those below the diagonal and on it are added to
 * @param right - size arrays of `count` values
 * @param rows - room for 4 * `strings` pairs
 */
export function addEquations(
  columns: usize,
  amplitudes: usize,
  restReal: usize,
  restImaginary: usize,
  strings: i32,
  turn: f64,
  weight: f64,
  count: i32,
  normal: usize,
  right: usize,
  rows: usize,
): void {
  const bytes: usize = <usize>count << 3;
  const size: usize = <usize>strings << 1;
  const weights = f64x2.splat(weight);
  const turns = f64x2.splat(turn);
  const back = f64x2.splat(-turn);
  for (let at: usize = 0; at < bytes; at += 16) {
    for (let k: usize = 0; k < <usize>strings; k++) {
      const x = v128.load(columns + 2 * k * bytes + at);
      const y = v128.load(columns + (2 * k + 1) * bytes + at);
      const amplitudeReal = v128.load64_splat(amplitudes + (k << 4));
      const amplitudeImaginary = v128.load64_splat(amplitudes + (k << 4), 8);
      const a = f64x2.sub(f64x2.mul(amplitudeReal, x), f64x2.mul(amplitudeImaginary, y));
      const b = f64x2.add(f64x2.mul(amplitudeReal, y), f64x2.mul(amplitudeImaginary, x));
      const row = rows + (k << 6);
      v128.store(row, f64x2.mul(back, b));
      v128.store(row, f64x2.mul(turns, a), 16);
      v128.store(row, a, 32);
      v128.store(row, b, 48);
    }
    const leftReal = v128.load(restReal + at);
    const leftImaginary = v128.load(restImaginary + at);
    for (let i: usize = 0; i < size; i++) {
      const real = f64x2.mul(weights, v128.load(rows + (i << 5)));
      const imaginary = f64x2.mul(weights, v128.load(rows + (i << 5), 16));
      const to = right + i * bytes + at;
      v128.store(
        to,
        f64x2.add(v128.load(to), f64x2.add(f64x2.mul(real, leftReal), f64x2.mul(imaginary, leftImaginary))),
      );
      for (let j: usize = 0; j <= i; j++) {
        const cell = normal + (i * size + j) * bytes + at;
        const product = f64x2.add(
          f64x2.mul(real, v128.load(rows + (j << 5))),
          f64x2.mul(imaginary, v128.load(rows + (j << 5), 16)),
        );
        v128.store(cell, f64x2.add(v128.load(cell), product));
      }
    }
  }
}
