// Sums over samples (`audio/ChannelAccumulator`, `audio/SurveyAccumulator`), in 64 bits, and their extremes.

/**
 * Sum, sum of squares, largest and smallest of samples, as f64 one after another at `result`. A NaN among them makes the
 * sums one.
 */
export function summarise(samples: usize, count: i32, result: usize): void {
  let sums = f64x2.splat(0);
  let otherSums = f64x2.splat(0);
  let squares = f64x2.splat(0);
  let otherSquares = f64x2.splat(0);
  let largest = f32x4.splat(-Infinity);
  let smallest = f32x4.splat(Infinity);
  const end = samples + (<usize>count << 2);
  let at = samples;
  for (; at + 16 <= end; at += 16) {
    const four = v128.load(at);
    const low = f64x2.promote_low_f32x4(four);
    const high = f64x2.promote_low_f32x4(v128.shuffle<f32>(four, four, 2, 3, 2, 3));
    sums = f64x2.add(sums, low);
    otherSums = f64x2.add(otherSums, high);
    squares = f64x2.add(squares, f64x2.mul(low, low));
    otherSquares = f64x2.add(otherSquares, f64x2.mul(high, high));
    largest = f32x4.pmax(largest, four);
    smallest = f32x4.pmin(smallest, four);
  }
  sums = f64x2.add(sums, otherSums);
  squares = f64x2.add(squares, otherSquares);
  let sum = f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1);
  let square = f64x2.extract_lane(squares, 0) + f64x2.extract_lane(squares, 1);
  let top: f64 = max<f32>(
    max<f32>(f32x4.extract_lane(largest, 0), f32x4.extract_lane(largest, 1)),
    max<f32>(f32x4.extract_lane(largest, 2), f32x4.extract_lane(largest, 3)),
  );
  let bottom: f64 = min<f32>(
    min<f32>(f32x4.extract_lane(smallest, 0), f32x4.extract_lane(smallest, 1)),
    min<f32>(f32x4.extract_lane(smallest, 2), f32x4.extract_lane(smallest, 3)),
  );
  for (; at < end; at += 4) {
    const value: f64 = load<f32>(at);
    sum += value;
    square += value * value;
    top = max<f64>(top, value);
    bottom = min<f64>(bottom, value);
  }
  store<f64>(result, sum);
  store<f64>(result, square, 8);
  store<f64>(result, top, 16);
  store<f64>(result, bottom, 24);
}

/** Sum of the products of two channels' samples. */
export function productSum(first: usize, second: usize, count: i32): f64 {
  let sums = f64x2.splat(0);
  let otherSums = f64x2.splat(0);
  const end = first + (<usize>count << 2);
  for (; first + 16 <= end; first += 16, second += 16) {
    const a = v128.load(first);
    const b = v128.load(second);
    const low = f64x2.mul(f64x2.promote_low_f32x4(a), f64x2.promote_low_f32x4(b));
    const high = f64x2.mul(
      f64x2.promote_low_f32x4(v128.shuffle<f32>(a, a, 2, 3, 2, 3)),
      f64x2.promote_low_f32x4(v128.shuffle<f32>(b, b, 2, 3, 2, 3)),
    );
    sums = f64x2.add(sums, low);
    otherSums = f64x2.add(otherSums, high);
  }
  sums = f64x2.add(sums, otherSums);
  let sum = f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1);
  for (; first < end; first += 4, second += 4) sum += <f64>load<f32>(first) * <f64>load<f32>(second);
  return sum;
}

/** Index of the first sample that is not below `highest` and above `lowest`, from a whole number of fours on; `count` where none is. */
export function firstOutside(samples: usize, start: i32, count: i32, lowest: f32, highest: f32): i32 {
  const low = f32x4.splat(lowest);
  const high = f32x4.splat(highest);
  let i = start;
  for (; i + 16 <= count; i += 16) {
    const at = samples + (<usize>i << 2);
    const a = v128.load(at);
    const b = v128.load(at, 16);
    const c = v128.load(at, 32);
    const d = v128.load(at, 48);
    const inside = v128.and(
      v128.and(
        v128.and(f32x4.lt(a, high), f32x4.gt(a, low)),
        v128.and(f32x4.lt(b, high), f32x4.gt(b, low)),
      ),
      v128.and(
        v128.and(f32x4.lt(c, high), f32x4.gt(c, low)),
        v128.and(f32x4.lt(d, high), f32x4.gt(d, low)),
      ),
    );
    if (!i32x4.all_true(inside)) break;
  }
  for (; i < count; i++) {
    const value = load<f32>(samples + (<usize>i << 2));
    if (!(value < highest && value > lowest)) return i;
  }
  return count;
}

/**
 * The same over `count` blocks of `length` samples one after another.
 *
 * @param powers - filled with the mean square of each block, as f32
 * @param totals - sums, squares and extremes that those of the blocks are put to
 */
export function summariseBlocks(
  samples: usize,
  length: i32,
  count: i32,
  result: usize,
  powers: usize,
  totals: usize,
): void {
  for (let b: usize = 0; b < <usize>count; b++) {
    summarise(samples + ((b * <usize>length) << 2), length, result);
    store<f32>(powers + (b << 2), <f32>(load<f64>(result, 8) / <f64>length));
    store<f64>(totals, load<f64>(totals) + load<f64>(result));
    store<f64>(totals, load<f64>(totals, 8) + load<f64>(result, 8), 8);
    store<f64>(totals, max<f64>(load<f64>(totals, 16), load<f64>(result, 16)), 16);
    store<f64>(totals, min<f64>(load<f64>(totals, 24), load<f64>(result, 24)), 24);
  }
}

/** The smallest step above 0 from one sample to the next, if below `least`; else `least`. */
export function smallestStep(samples: usize, count: i32, least: f64): f64 {
  let before = <f64>load<f32>(samples);
  for (let i: usize = 1; i < <usize>count; i++) {
    const value = <f64>load<f32>(samples + (i << 2));
    const step = abs<f64>(value - before);
    if (step < least && step > 0) least = step;
    before = value;
  }
  return least;
}

/** Takes a constant off every sample. */
export function subtractConstant(samples: usize, count: i32, constant: f64): void {
  for (let at = samples; at < samples + (<usize>count << 2); at += 4) {
    store<f32>(at, <f32>(<f64>load<f32>(at) - constant));
  }
}
