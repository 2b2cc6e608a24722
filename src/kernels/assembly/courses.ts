// The common course of partials (`partials/phaseCourse`, `partials/joint/followString`): loops over frames, given as real and
// imaginary parts of `count` values each.

// The host's own, and not the language's: those have tables in memory, and are slower.
// @ts-ignore: decorator
@external("math", "atan2")
declare function atan2(y: f64, x: f64): f64;
// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;
// @ts-ignore: decorator
@external("math", "sin")
declare function sin(angle: f64): f64;

// @ts-ignore: decorator
@inline
function sumOf(pair: v128): f64 {
  return f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1);
}

/** The phase at each frame against the first, never jumping by more than half a turn, less its mean; in radians. */
export function unwrap(real: usize, imaginary: usize, count: i32, phases: usize): void {
  const end: usize = <usize>count << 3;
  let total: f64 = 0;
  let sum: f64 = 0;
  store<f64>(phases, 0);
  for (let at: usize = 8; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    const c = load<f64>(real + at - 8);
    const d = load<f64>(imaginary + at - 8);
    total += atan2(b * c - a * d, a * c + b * d);
    sum += total;
    store<f64>(phases + at, total);
  }
  const mean = sum / <f64>max<i32>(1, count);
  for (let at: usize = 0; at < end; at += 8) store<f64>(phases + at, load<f64>(phases + at) - mean);
}

/** The least power of a frame as a share of the mean power: not a number where all are 0. */
export function leastShare(real: usize, imaginary: usize, count: i32): f64 {
  const end: usize = <usize>count << 3;
  let lowest: f64 = Infinity;
  let sum: f64 = 0;
  for (let at: usize = 0; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    const power = a * a + b * b;
    sum += power;
    lowest = min<f64>(lowest, power);
  }
  return (lowest * <f64>count) / sum;
}

/** Adds a series times a factor to another. */
export function addScaled(values: usize, factor: f64, count: i32, sum: usize): void {
  const end: usize = <usize>count << 3;
  const factors = f64x2.splat(factor);
  let at: usize = 0;
  for (; at + 16 <= end; at += 16) {
    v128.store(sum + at, f64x2.add(v128.load(sum + at), f64x2.mul(factors, v128.load(values + at))));
  }
  if (at < end) store<f64>(sum + at, load<f64>(sum + at) + factor * load<f64>(values + at));
}

/** Sum of the squares of a series less another times a factor. */
export function strayEnergy(values: usize, others: usize, factor: f64, count: i32): f64 {
  const end: usize = <usize>count << 3;
  const factors = f64x2.splat(factor);
  let squares = f64x2.splat(0);
  let at: usize = 0;
  for (; at + 16 <= end; at += 16) {
    const left = f64x2.sub(v128.load(values + at), f64x2.mul(factors, v128.load(others + at)));
    squares = f64x2.add(squares, f64x2.mul(left, left));
  }
  let sum = sumOf(squares);
  if (at < end) {
    const left = load<f64>(values + at) - factor * load<f64>(others + at);
    sum += left * left;
  }
  return sum;
}

/** Sum of the squares of both parts. */
export function energy(real: usize, imaginary: usize, count: i32): f64 {
  const end: usize = <usize>count << 3;
  let squares = f64x2.splat(0);
  let at: usize = 0;
  for (; at + 16 <= end; at += 16) {
    const a = v128.load(real + at);
    const b = v128.load(imaginary + at);
    squares = f64x2.add(squares, f64x2.add(f64x2.mul(a, a), f64x2.mul(b, b)));
  }
  let sum = sumOf(squares);
  if (at < end) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    sum += a * a + b * b;
  }
  return sum;
}

/**
 * What the signal-to-noise of a phasor is told from.
 *
 * @param sizes - room for `count` values: the size of each frame
 * @param result - filled with the sums of sizes and of their squares, real and imaginary part of the sum of each frame times
 * the conjugate of the one `lag` frames before, and the sum of squares of a size less the mean of those `bend` frames
 * before and after
 */
export function phasorSums(
  real: usize,
  imaginary: usize,
  count: i32,
  lag: i32,
  bend: i32,
  sizes: usize,
  result: usize,
): void {
  const end: usize = <usize>count << 3;
  const lagged: usize = <usize>lag << 3;
  const bent: usize = <usize>bend << 3;
  let sum: f64 = 0;
  let squares: f64 = 0;
  for (let at: usize = 0; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    const power = a * a + b * b;
    const size = sqrt<f64>(power);
    store<f64>(sizes + at, size);
    sum += size;
    squares += power;
  }
  let crossReal: f64 = 0;
  let crossImaginary: f64 = 0;
  for (let at = lagged; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    const c = load<f64>(real + at - lagged);
    const d = load<f64>(imaginary + at - lagged);
    crossReal += a * c + b * d;
    crossImaginary += b * c - a * d;
  }
  let bends: f64 = 0;
  for (let at = bent; at + bent < end; at += 8) {
    const off = load<f64>(sizes + at) - (load<f64>(sizes + at - bent) + load<f64>(sizes + at + bent)) / 2;
    bends += off * off;
  }
  store<f64>(result, sum);
  store<f64>(result, squares, 8);
  store<f64>(result, crossReal, 16);
  store<f64>(result, crossImaginary, 24);
  store<f64>(result, bends, 32);
}

/** Adds the size of each frame to a series. */
export function addSizes(real: usize, imaginary: usize, count: i32, sum: usize): void {
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    store<f64>(sum + at, load<f64>(sum + at) + sqrt<f64>(a * a + b * b));
  }
}

/**
 * Sums over frames of weight * gain times the real part, the imaginary part and the gain itself: the least squares of one
 * amplitude along a gain.
 */
export function gainSums(
  real: usize,
  imaginary: usize,
  gain: usize,
  weights: usize,
  count: i32,
  result: usize,
): void {
  const end: usize = <usize>count << 3;
  let sumReal: f64 = 0;
  let sumImaginary: f64 = 0;
  let norm: f64 = 0;
  for (let at: usize = 0; at < end; at += 8) {
    const own = load<f64>(gain + at);
    const weight = load<f64>(weights + at) * own;
    sumReal += weight * load<f64>(real + at);
    sumImaginary += weight * load<f64>(imaginary + at);
    norm += weight * own;
  }
  store<f64>(result, sumReal);
  store<f64>(result, sumImaginary, 8);
  store<f64>(result, norm, 16);
}

/** Adds the power of each frame to a series. */
export function addFramePowers(real: usize, imaginary: usize, count: i32, sum: usize): void {
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 8) {
    const a = load<f64>(real + at);
    const b = load<f64>(imaginary + at);
    store<f64>(sum + at, load<f64>(sum + at) + a * a + b * b);
  }
}

/** Sums of the real and of the imaginary parts. */
export function frameSums(real: usize, imaginary: usize, count: i32, result: usize): void {
  let sumReal: f64 = 0;
  let sumImaginary: f64 = 0;
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    sumReal += load<f64>(real + at);
    sumImaginary += load<f64>(imaginary + at);
  }
  store<f64>(result, sumReal);
  store<f64>(result, sumImaginary, 8);
}

/** exp(-2 pi i times the cycles) at each frame, interleaved. */
export function turnsOfCycles(cycles: usize, count: i32, turns: usize): void {
  for (let m: usize = 0; m < <usize>count; m++) {
    const angle = -2 * Math.PI * load<f64>(cycles + (m << 3));
    store<f64>(turns + (m << 4), cos(angle));
    store<f64>(turns + (m << 4), sin(angle), 8);
  }
}
