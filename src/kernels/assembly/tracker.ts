// The steps of one frame of the pitch tracker (`pitch/FrameTracker`, which says what they are for and keeps the numbers).
import { transform, transformReal } from "./fourier";

// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;
// @ts-ignore: decorator
@external("math", "sin")
declare function sin(angle: f64): f64;

/** Adds the power of the windowed samples to bins `firstBin` to `lastBin` of `power`. */
export function addPower(
  samples: usize,
  window: usize,
  size: i32,
  values: usize,
  work: usize,
  factors: usize,
  turns: usize,
  power: usize,
  firstBin: i32,
  lastBin: i32,
): void {
  for (let i: usize = 0; i < <usize>size; i += 2) {
    const pair = f64x2.promote_low_f32x4(v128.load64_zero(samples + (i << 2)));
    v128.store(values + (i << 3), f64x2.mul(pair, v128.load(window + (i << 3))));
  }
  const spectrum = transformReal(values, work, factors, turns, size >> 1);
  for (let k = <usize>firstBin; k <= <usize>lastBin; k++) {
    const value = v128.load(spectrum + (k << 4));
    const square = f64x2.mul(value, value);
    store<f64>(
      power + (k << 3),
      load<f64>(power + (k << 3)) + f64x2.extract_lane(square, 0) + f64x2.extract_lane(square, 1),
    );
  }
}

/** The same for two channels, which travel as one complex signal: |Z(k)|^2 + |Z(-k)|^2 is twice the sum of their powers. */
export function addPowers(
  first: usize,
  second: usize,
  window: usize,
  size: i32,
  values: usize,
  work: usize,
  factors: usize,
  power: usize,
  firstBin: i32,
  lastBin: i32,
): void {
  for (let i: usize = 0; i < <usize>size; i++) {
    const pair = f64x2(<f64>load<f32>(first + (i << 2)), <f64>load<f32>(second + (i << 2)));
    v128.store(values + (i << 4), f64x2.mul(pair, v128.load64_splat(window + (i << 3))));
  }
  const spectrum = transform(values, work, factors, size);
  const halves = f64x2.splat(0.5);
  let mirror = spectrum + ((<usize>size - <usize>firstBin) << 4);
  for (let k = <usize>firstBin; k <= <usize>lastBin; k++) {
    const value = v128.load(spectrum + (k << 4));
    const other = v128.load(mirror);
    const squares = f64x2.mul(f64x2.add(f64x2.mul(value, value), f64x2.mul(other, other)), halves);
    store<f64>(
      power + (k << 3),
      load<f64>(power + (k << 3)) + f64x2.extract_lane(squares, 0) + f64x2.extract_lane(squares, 1),
    );
    mirror -= 16;
  }
}

/**
 * Correlation at lags 0 to `count` - 1 from the square root of the power: by a transform of half the size (type I cosine
 * transform; Cooley, Lewis & Welch 1970; from memory).
 *
 * @param amplitude - 0 outside of the bins, from 0 to `last` and one more
 * @param waves - sin and cos (pi k / last) for k from 0 to `last` - 1, one pair after another
 * @param factors - those of a transform of `last` / 2
 * @param turns - exp(-2 pi i k / last)
 */
export function correlate(
  power: usize,
  amplitude: usize,
  firstBin: i32,
  lastBin: i32,
  last: i32,
  waves: usize,
  folded: usize,
  work: usize,
  factors: usize,
  turns: usize,
  correlation: usize,
  count: i32,
): void {
  for (let k = <usize>firstBin; k <= <usize>lastBin; k++) {
    store<f64>(amplitude + (k << 3), sqrt<f64>(load<f64>(power + (k << 3))));
  }
  const ends = load<f64>(amplitude + (<usize>last << 3));
  const start = load<f64>(amplitude);
  let first = (start - ends) / 2;
  store<f64>(folded, (start + ends) / 2);
  for (let k: usize = 1; k < <usize>last; k++) {
    const value = load<f64>(amplitude + (k << 3));
    const mirrored = load<f64>(amplitude + ((<usize>last - k) << 3));
    store<f64>(folded + (k << 3), 0.5 * (value + mirrored) - load<f64>(waves + (k << 4)) * (value - mirrored));
    first += value * load<f64>(waves + (k << 4), 8);
  }
  const spectrum = transformReal(folded, work, factors, turns, last >> 1);
  let odd = 2 * first;
  for (let lag: usize = 0; lag < <usize>count; lag += 2) {
    store<f64>(correlation + (lag << 3), 2 * load<f64>(spectrum + (lag << 3)));
    if (lag > 0) odd -= 2 * load<f64>(spectrum + (lag << 3), 8);
    if (lag + 1 < <usize>count) store<f64>(correlation + (lag << 3), odd, 8);
  }
}

// @ts-ignore: decorator
@inline
function at(values: usize, index: i32): f64 {
  return load<f64>(values + (<usize>index << 3));
}

// @ts-ignore: decorator
@inline
function normalised(correlation: usize, envelope: usize, lag: i32): f64 {
  return at(correlation, lag) / at(correlation, 0) / at(envelope, lag);
}

/** Real parts of two phasors turned by a step; the imaginary ones with both swapped and the step turned back. */
// @ts-ignore: decorator
@inline
function turnedBy(pair: v128, other: v128, stepReal: v128, stepImaginary: v128): v128 {
  return f64x2.sub(f64x2.mul(pair, stepReal), f64x2.mul(other, stepImaginary));
}

/**
 * The same between whole lags, summed from the spectrum, eight bins at a time: none of the four pairs of cosines has to wait for
 * another's turn. Beyond the last bin stand seven zeros.
 */
function normalisedBetween(
  correlation: usize,
  envelope: usize,
  amplitude: usize,
  size: i32,
  firstBin: i32,
  lastBin: i32,
  lag: f64,
): f64 {
  const step = (2 * Math.PI * lag) / <f64>size;
  const c1 = cos(step);
  const s1 = sin(step);
  const c2 = c1 * c1 - s1 * s1;
  const s2 = 2 * c1 * s1;
  const c4 = c2 * c2 - s2 * s2;
  const s4 = 2 * c2 * s2;
  const c8 = c4 * c4 - s4 * s4;
  const s8 = 2 * c4 * s4;
  const c = cos(step * <f64>firstBin);
  const s = sin(step * <f64>firstBin);
  let realA = f64x2(c, c * c1 - s * s1);
  let imaginaryA = f64x2(s, s * c1 + c * s1);
  const byTwoReal = f64x2.splat(c2);
  const byTwo = f64x2.splat(s2);
  const backByTwo = f64x2.splat(-s2);
  let realB = turnedBy(realA, imaginaryA, byTwoReal, byTwo);
  let imaginaryB = turnedBy(imaginaryA, realA, byTwoReal, backByTwo);
  let realC = turnedBy(realB, imaginaryB, byTwoReal, byTwo);
  let imaginaryC = turnedBy(imaginaryB, realB, byTwoReal, backByTwo);
  let realD = turnedBy(realC, imaginaryC, byTwoReal, byTwo);
  let imaginaryD = turnedBy(imaginaryC, realC, byTwoReal, backByTwo);
  const stepReal = f64x2.splat(c8);
  const forward = f64x2.splat(s8);
  const back = f64x2.splat(-s8);
  let sums = f64x2.splat(0);
  let otherSums = f64x2.splat(0);
  const end = amplitude + (<usize>lastBin << 3);
  for (let place = amplitude + (<usize>firstBin << 3); place <= end; place += 64) {
    sums = f64x2.add(sums, f64x2.mul(v128.load(place), realA));
    otherSums = f64x2.add(otherSums, f64x2.mul(v128.load(place, 16), realB));
    sums = f64x2.add(sums, f64x2.mul(v128.load(place, 32), realC));
    otherSums = f64x2.add(otherSums, f64x2.mul(v128.load(place, 48), realD));
    const nextA = turnedBy(realA, imaginaryA, stepReal, forward);
    imaginaryA = turnedBy(imaginaryA, realA, stepReal, back);
    realA = nextA;
    const nextB = turnedBy(realB, imaginaryB, stepReal, forward);
    imaginaryB = turnedBy(imaginaryB, realB, stepReal, back);
    realB = nextB;
    const nextC = turnedBy(realC, imaginaryC, stepReal, forward);
    imaginaryC = turnedBy(imaginaryC, realC, stepReal, back);
    realC = nextC;
    const nextD = turnedBy(realD, imaginaryD, stepReal, forward);
    imaginaryD = turnedBy(imaginaryD, realD, stepReal, back);
    realD = nextD;
  }
  sums = f64x2.add(sums, otherSums);
  const sum = f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1);
  const below = <i32>lag;
  const low = at(envelope, below);
  return (2 * sum) / at(correlation, 0) / (low + (lag - <f64>below) * (at(envelope, below + 1) - low));
}

/**
 * The first high peak of the correlation: writes its lag and its height to `result`, a lag of 0 where none is clear.
 *
 * @param lags - room for 20 bytes a lag and 16 more
 */
export function firstHighPeak(
  correlation: usize,
  envelope: usize,
  amplitude: usize,
  size: i32,
  firstBin: i32,
  lastBin: i32,
  lagMinimum: i32,
  lagMaximum: i32,
  leastClarity: f64,
  firstPeakShare: f64,
  roughShare: f64,
  dipShare: f64,
  lags: usize,
  result: usize,
): void {
  let count: usize = 0;
  let highest: f64 = 0;
  let lowest: f64 = 1;
  let height = normalised(correlation, envelope, 0);
  let next = normalised(correlation, envelope, 1);
  // From lag 1 on, since the dip before the highest pitch lies below the shortest period that counts.
  for (let lag = 1; lag <= lagMaximum; lag++) {
    const previous = height;
    height = next;
    next = normalised(correlation, envelope, lag + 1);
    if (height < lowest) lowest = height;
    if (lag < lagMinimum) continue;
    if (height < previous || height <= next || height <= 0 || lowest > dipShare * height) continue;
    store<i32>(lags + (count << 2), lag);
    count++;
    if (height > highest) highest = height;
  }
  store<f64>(result, 0);
  store<f64>(result, highest, 8);
  if (highest < leastClarity) return;
  let top: f64 = 0;
  const peaks = lags + (((count << 2) + 15) & ~15);
  let peakCount: usize = 0;
  for (let i: usize = 0; i < count; i++) {
    const whole = load<i32>(lags + (i << 2));
    let peak = normalised(correlation, envelope, whole);
    if (peak < roughShare * highest) continue;
    let lag = <f64>whole;
    for (let round = 0; round < 2; round++) {
      const step: f64 = round === 0 ? 0.5 : 0.1;
      const before = normalisedBetween(correlation, envelope, amplitude, size, firstBin, lastBin, lag - step);
      const after = normalisedBetween(correlation, envelope, amplitude, size, firstBin, lastBin, lag + step);
      const curvature = before - 2 * peak + after;
      if (curvature >= 0) break;
      lag += step * max<f64>(-1, min<f64>(1, (before - after) / (2 * curvature)));
      peak = normalisedBetween(correlation, envelope, amplitude, size, firstBin, lastBin, lag);
    }
    store<f64>(peaks + (peakCount << 4), lag);
    store<f64>(peaks + (peakCount << 4), peak, 8);
    peakCount++;
    if (peak > top) top = peak;
    // No later peak can stand above 1, so this one is the first high one already.
    if (peak >= firstPeakShare) break;
  }
  for (let i: usize = 0; i < peakCount; i++) {
    const peak = load<f64>(peaks + (i << 4), 8);
    if (peak < firstPeakShare * top) continue;
    store<f64>(result, load<f64>(peaks + (i << 4)));
    store<f64>(result, peak, 8);
    return;
  }
}
