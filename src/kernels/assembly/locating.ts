// The search for a string's frequency (`partials/joint/locateString`).
import { transform } from "./fourier";

/**
 * Adds the power, times a factor, of the weighted frames' spectrum of `size` bins to those from `-reach` to `reach`.
 *
 * @param values - room for `size` complex values, as is `work`
 * @param powers - 2 * `reach` + 1 values
 */
export function addSpectrum(
  real: usize,
  imaginary: usize,
  weights: usize,
  count: i32,
  values: usize,
  work: usize,
  factors: usize,
  size: i32,
  reach: i32,
  factor: f64,
  powers: usize,
): void {
  for (let m: usize = 0; m < <usize>count; m++) {
    const weight = load<f64>(weights + (m << 3));
    const value = f64x2(load<f64>(real + (m << 3)), load<f64>(imaginary + (m << 3)));
    v128.store(values + (m << 4), f64x2.mul(f64x2.splat(weight), value));
  }
  memory.fill(values + (<usize>count << 4), 0, <usize>(size - count) << 4);
  const spectrum = transform(values, work, factors, size);
  for (let i = 0; i <= 2 * reach; i++) {
    const k = (i - reach) & (size - 1);
    const value = v128.load(spectrum + (<usize>k << 4));
    const square = f64x2.mul(value, value);
    const to = powers + (<usize>i << 3);
    store<f64>(to, load<f64>(to) + factor * (f64x2.extract_lane(square, 0) + f64x2.extract_lane(square, 1)));
  }
}

/**
 * From what a line explains at each place to the share that it leaves: 1 where less than `least` of it is uncovered.
 *
 * @param explained - overwritten
 * @param uncovered - of a line's energy, what the known neighbours leave
 */
export function leftShares(explained: usize, uncovered: usize, count: i32, least: f64, energy: f64): void {
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    const free = load<f64>(uncovered + at);
    const share = free < least ? 0 : min<f64>(0.999, load<f64>(explained + at) / free / energy);
    store<f64>(explained + at, 1 - share);
  }
}

/**
 * The offset from `-span` to `span`, in steps, at which the product of what lines at multiples of it leave is least.
 *
 * @param numbers - the multiples, `parts` of them; of each, `reaches` says how many places its row of `left` has on both sides
 * @param left - rows of `stride` values, from `-reach` to `reach` places of `binHz`
 * @param result - the offset and the product there
 */
export function leastProduct(
  numbers: usize,
  reaches: usize,
  left: usize,
  stride: i32,
  parts: i32,
  span: f64,
  step: f64,
  binHz: f64,
  result: usize,
): void {
  let best: f64 = Infinity;
  let bestOffset: f64 = 0;
  for (let offset = -span; offset <= span; offset += step) {
    let product: f64 = 1;
    for (let i: usize = 0; i < <usize>parts; i++) {
      // Half way between two places the upper one, as Math.round has it.
      const place = floor<f64>((load<f64>(numbers + (i << 3)) * offset) / binHz + 0.5) + load<f64>(reaches + (i << 3));
      product *= load<f64>(left + ((i * <usize>stride + <usize>(<i32>place)) << 3));
    }
    if (product < best) {
      best = product;
      bestOffset = offset;
    }
  }
  store<f64>(result, bestOffset);
  store<f64>(result, best, 8);
}
