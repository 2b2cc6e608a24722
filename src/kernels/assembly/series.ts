// Series of 64-bit and 32-bit floats.

// @ts-ignore: decorator
@external("math", "log")
declare function log(value: f64): f64;

/** Sums of the squares of `count` blocks of 32-bit samples, `length` each, one after another. */
export function blockEnergies(samples: usize, length: i32, count: i32, energies: usize): void {
  for (let b: usize = 0; b < <usize>count; b++) {
    const end = samples + (<usize>length << 2);
    let sums = f64x2.splat(0);
    for (; samples + 8 <= end; samples += 8) {
      const pair = f64x2.promote_low_f32x4(v128.load64_zero(samples));
      sums = f64x2.add(sums, f64x2.mul(pair, pair));
    }
    let sum = f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1);
    if (samples < end) {
      const value = <f64>load<f32>(samples);
      sum += value * value;
      samples += 4;
    }
    store<f64>(energies + (b << 3), sum);
  }
}

/** The same of each sample less the one before; there is one more before the first block. */
export function blockDifferenceEnergies(samples: usize, length: i32, count: i32, energies: usize): void {
  let before = <f64>load<f32>(samples);
  samples += 4;
  for (let b: usize = 0; b < <usize>count; b++) {
    let sum: f64 = 0;
    for (const end = samples + (<usize>length << 2); samples < end; samples += 4) {
      const value = <f64>load<f32>(samples);
      const difference = value - before;
      sum += difference * difference;
      before = value;
    }
    store<f64>(energies + (b << 3), sum);
  }
}

/** A series with a straight line through 0 at its first value added; may be written over itself. */
export function addRamp(values: usize, slope: f64, count: i32, sums: usize): void {
  for (let m: usize = 0; m < <usize>count; m++) {
    store<f64>(sums + (m << 3), load<f64>(values + (m << 3)) + slope * <f64>m);
  }
}

/** The straight line through a series by least squares: its height in the middle, its slope, and the sum of the squares it leaves. */
export function lineFit(values: usize, count: i32, result: usize): void {
  const middle = <f64>(count - 1) / 2;
  let sum: f64 = 0;
  for (let m: usize = 0; m < <usize>count; m++) sum += load<f64>(values + (m << 3));
  const mean = sum / <f64>count;
  let cross: f64 = 0;
  let squares: f64 = 0;
  for (let m: usize = 0; m < <usize>count; m++) {
    const away = <f64>m - middle;
    cross += away * (load<f64>(values + (m << 3)) - mean);
    squares += away * away;
  }
  const slope = cross / max<f64>(squares, 1);
  let rest: f64 = 0;
  for (let m: usize = 0; m < <usize>count; m++) {
    const left = load<f64>(values + (m << 3)) - mean - slope * (<f64>m - middle);
    rest += left * left;
  }
  store<f64>(result, mean);
  store<f64>(result, slope, 8);
  store<f64>(result, rest, 16);
}

/**
 * How much two spectra differ, in ln of power on the mean of the places where either reaches `share` of the strongest; what
 * is less counts as that. Both are differences of running sums: from `start` to `middle`, and from there to `end`.
 */
export function meanLogRatio(start: usize, middle: usize, end: usize, count: i32, share: f64): f64 {
  let top: f64 = 0;
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    const between = load<f64>(middle + at);
    top = max<f64>(top, max<f64>(between - load<f64>(start + at), load<f64>(end + at) - between));
  }
  const least = top * share;
  if (!(least > 0)) return 0;
  let sum: f64 = 0;
  let places = 0;
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    const before = load<f64>(middle + at) - load<f64>(start + at);
    const after = load<f64>(end + at) - load<f64>(middle + at);
    if (before < least && after < least) continue;
    sum += abs<f64>(log(max<f64>(after, least) / max<f64>(before, least)));
    places++;
  }
  return places === 0 ? 0 : sum / <f64>places;
}

/** Square roots, as 32-bit floats. */
export function roots(values: usize, count: i32, result: usize): void {
  for (let i: usize = 0; i < <usize>count; i++) {
    store<f32>(result + (i << 2), <f32>sqrt<f64>(load<f64>(values + (i << 3))));
  }
}

/**
 * The highest local maximum of a spectrum, of the bins from `first` to the one before `end`, that is no nearer than `guardHz` and
 * `spread` of its own frequency to a multiple of any of the given ones.
 *
 * @returns its bin; -1 for none
 */
export function highestApart(
  density: usize,
  first: i32,
  end: i32,
  binHz: f64,
  frequencies: usize,
  frequencyCount: i32,
  guardHz: f64,
  spread: f64,
): i32 {
  let best: f64 = 0;
  let bestBin = -1;
  for (let k = first; k < end; k++) {
    const at = density + (<usize>k << 3);
    const value = load<f64>(at);
    if (value <= best || value < load<f64>(at - 8) || value < load<f64>(at, 8)) continue;
    const hz = <f64>k * binHz;
    let away: f64 = Infinity;
    for (let i: usize = 0; i < <usize>frequencyCount; i++) {
      const frequency = load<f64>(frequencies + (i << 3));
      away = min<f64>(away, abs<f64>(hz - max<f64>(1, floor<f64>(hz / frequency + 0.5)) * frequency));
    }
    if (away < guardHz + spread * hz) continue;
    best = value;
    bestBin = k;
  }
  return bestBin;
}

/** Sum of a series. */
export function total(values: usize, count: i32): f64 {
  let sum: f64 = 0;
  for (let at: usize = 0; at < <usize>count << 3; at += 8) sum += load<f64>(values + at);
  return sum;
}

/** Each value over the mean, no less than `least` and no more than `most`; 1 where the mean is not above 0. In their place. */
export function toShares(values: usize, count: i32, least: f64, most: f64): void {
  const mean = total(values, count) / <f64>count;
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    store<f64>(values + at, mean > 0 ? min<f64>(most, max<f64>(least, load<f64>(values + at) / mean)) : 1);
  }
}
