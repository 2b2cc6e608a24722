// Series of pitch and level that a line keeps time with (`wheel/`).
import { transformReal } from "./fourier";

// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;
// @ts-ignore: decorator
@external("math", "sin")
declare function sin(angle: f64): f64;

/**
 * Adds the power of a windowed part of a series, times a factor, to bins `firstBin` to `lastBin`.
 *
 * @param size - of the transform, a power of two; beyond the window's `length` it is filled up with zeros
 * @param values - room for `size` values, as is `work`
 * @param power - `lastBin` - `firstBin` + 1 values
 */
export function addWindowPower(
  series: usize,
  window: usize,
  length: i32,
  size: i32,
  values: usize,
  work: usize,
  factors: usize,
  turns: usize,
  firstBin: i32,
  lastBin: i32,
  factor: f64,
  power: usize,
): void {
  for (let at: usize = 0; at < <usize>length << 3; at += 8) {
    store<f64>(values + at, load<f64>(series + at) * load<f64>(window + at));
  }
  memory.fill(values + (<usize>length << 3), 0, <usize>(size - length) << 3);
  const spectrum = transformReal(values, work, factors, turns, size >> 1);
  for (let k = firstBin; k <= lastBin; k++) {
    const value = v128.load(spectrum + (<usize>k << 4));
    const square = f64x2.mul(value, value);
    const to = power + (<usize>(k - firstBin) << 3);
    store<f64>(to, load<f64>(to) + (f64x2.extract_lane(square, 0) + f64x2.extract_lane(square, 1)) * factor);
  }
}

/**
 * One step of a strongest path (Viterbi): for each place the best one before it, whose value is lessened by a factor times the
 * square of how far it is away.
 *
 * @param best - of the `count` places before
 * @param reaches - how far away it may be, of each place
 * @param strengths - what each place adds, times `share`
 * @param next - filled with the values, and `back` with the places before
 */
export function bestBefore(
  best: usize,
  count: i32,
  reaches: usize,
  factors: usize,
  strengths: usize,
  share: f64,
  next: usize,
  back: usize,
): void {
  for (let place = 0; place < count; place++) {
    const at: usize = <usize>place << 3;
    const reach = <i32>load<f64>(reaches + at);
    const factor = load<f64>(factors + at);
    let top: f64 = -Infinity;
    let from = place;
    const last = min<i32>(count - 1, place + reach);
    for (let other = max<i32>(0, place - reach); other <= last; other++) {
      const away = <f64>(other - place);
      const value = load<f64>(best + (<usize>other << 3)) - factor * (away * away);
      if (value <= top) continue;
      top = value;
      from = other;
    }
    store<f64>(next + at, top + share * load<f64>(strengths + at));
    store<f64>(back + at, <f64>from);
  }
}

/**
 * Adds what every step of a series says of the phase at the knots on both sides of it to the normal equations.
 *
 * @param white - by how much each step changes with the phase, and `innovations` what is left of it; both of `count` values
 * @param firstPlace - of the first step, in knots; from one to the next `placeStep` more
 * @param knots - their number
 * @param matrix - rows of `stride` values, and `right` one
 */
export function addPulls(
  white: usize,
  innovations: usize,
  count: i32,
  firstPlace: f64,
  placeStep: f64,
  variance: f64,
  knots: i32,
  stride: i32,
  matrix: usize,
  right: usize,
): void {
  for (let m = 0; m < count; m++) {
    const place = firstPlace + <f64>m * placeStep;
    const knot = min<i32>(knots - 2, <i32>place);
    const share = place - <f64>knot;
    const own = load<f64>(white + (<usize>m << 3));
    const weight = (own * own) / variance;
    const pull = (own * load<f64>(innovations + (<usize>m << 3))) / variance;
    const diagonal = matrix + (<usize>(knot * stride + knot) << 3);
    const below = diagonal + (<usize>stride << 3);
    const across = weight * share * (1 - share);
    store<f64>(diagonal, load<f64>(diagonal) + weight * (1 - share) * (1 - share));
    store<f64>(diagonal, load<f64>(diagonal, 8) + across, 8);
    store<f64>(below, load<f64>(below) + across);
    store<f64>(below, load<f64>(below, 8) + weight * share * share, 8);
    const to = right + (<usize>knot << 3);
    store<f64>(to, load<f64>(to) + pull * (1 - share));
    store<f64>(to, load<f64>(to, 8) + pull * share, 8);
  }
}

/**
 * One reflection of Burg's method, of order `k`: of the series run forward and backward, which are written over.
 *
 * @returns not a number where nothing is left to predict
 */
export function reflect(forward: usize, backward: usize, count: i32, k: i32): f64 {
  let cross: f64 = 0;
  let power: f64 = 0;
  const first: usize = <usize>k << 3;
  const end: usize = <usize>count << 3;
  for (let at = first; at < end; at += 8) {
    const a = load<f64>(forward + at);
    const b = load<f64>(backward + at - 8);
    cross += a * b;
    power += a * a + b * b;
  }
  if (!(power > 0)) return NaN;
  const reflection = (-2 * cross) / power;
  for (let at = end - 8; at >= first; at -= 8) {
    const a = load<f64>(forward + at);
    const b = load<f64>(backward + at - 8);
    store<f64>(forward + at, a + reflection * b);
    store<f64>(backward + at, b + reflection * a);
  }
  return reflection;
}

/** A running integral, `hop` seconds from one value to the next, at `count` times: straight between its values and beyond them. */
export function integralsAt(integral: usize, length: i32, hop: f64, times: usize, count: i32, result: usize): void {
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    const place = load<f64>(times + at) / hop;
    const index = max<i32>(0, min<i32>(length - 2, <i32>floor<f64>(place)));
    const from = integral + (<usize>index << 3);
    const value = load<f64>(from);
    store<f64>(result + at, value + (place - <f64>index) * (load<f64>(from, 8) - value));
  }
}

/** For each value, the mean over the `places` around it (half of the first and of the one after the last), or over the nearest that fit. */
export function turnMeans(values: usize, count: i32, places: i32, means: usize): void {
  const half = places >> 1;
  for (let i = 0; i < count; i++) {
    const middle = min<i32>(count - 1 - half, max<i32>(half, i));
    const first = values + (<usize>(middle - half) << 3);
    let sum = (load<f64>(first) + load<f64>(first + (<usize>places << 3))) / 2;
    for (let j: usize = 1; j < <usize>places; j++) sum += load<f64>(first + (j << 3));
    store<f64>(means + (<usize>i << 3), sum / <f64>places);
  }
}

/**
 * By how much a sinusoid of each rate lessens the sum of squares of a series of mean 0, its own mean fitted along with it. Sums
 * of cosines and sines are geometric series; the products with the values follow from Goertzel's recursion.
 *
 * @param rate - of the first, in hertz; from one to the next `rateStep` more, up to `lastRate`
 * @param least - where the determinant is no larger, not a number
 * @returns how many gains were filled
 */
export function sinusoidGains(
  values: usize,
  count: i32,
  stepSeconds: f64,
  rate: f64,
  rateStep: f64,
  lastRate: f64,
  least: f64,
  gains: usize,
): i32 {
  const length = <f64>count;
  let filled = 0;
  for (; rate <= lastRate; rate += rateStep) {
    const turn = 2 * Math.PI * rate * stepSeconds;
    const scale = sin((length * turn) / 2) / sin(turn / 2);
    const angle = ((length - 1) * turn) / 2;
    const sumCosine = scale * cos(angle);
    const sumSine = scale * sin(angle);
    const scaleTwice = sin((length * 2 * turn) / 2) / sin((2 * turn) / 2);
    const angleTwice = ((length - 1) * 2 * turn) / 2;
    const cosineCosine = (length + scaleTwice * cos(angleTwice)) / 2;
    const cosineSine = (scaleTwice * sin(angleTwice)) / 2;
    const twice = 2 * cos(turn);
    let last: f64 = 0;
    let before: f64 = 0;
    for (let at = values + (<usize>(count - 1) << 3); at > values; at -= 8) {
      const next = load<f64>(at) + twice * last - before;
      before = last;
      last = next;
    }
    const valueCosine = load<f64>(values) + (twice / 2) * last - before;
    const valueSine = sin(turn) * last;
    const a = cosineCosine - (sumCosine * sumCosine) / length;
    const b = cosineSine - (sumCosine * sumSine) / length;
    const c = length - cosineCosine - (sumSine * sumSine) / length;
    const determinant = a * c - b * b;
    const gain =
      (c * valueCosine * valueCosine - 2 * b * valueCosine * valueSine + a * valueSine * valueSine) / determinant;
    store<f64>(gains + (<usize>filled << 3), determinant > least ? gain : NaN);
    filled++;
  }
  return filled;
}

/**
 * The phase of a path at each step: its mean rate from the time `zeroSeconds` on, and what lies between the knots on both sides.
 *
 * @param knots - `knotCount` values in radians, `knotSeconds` apart
 */
export function pathPhase(
  knots: usize,
  knotCount: i32,
  knotSeconds: f64,
  rateHz: f64,
  zeroSeconds: f64,
  stepSeconds: f64,
  count: i32,
  phase: usize,
): void {
  for (let m = 0; m < count; m++) {
    const seconds = (<f64>m + 0.5) * stepSeconds;
    const place = seconds / knotSeconds;
    const knot = min<i32>(knotCount - 2, <i32>place);
    const from = knots + (<usize>knot << 3);
    const value = load<f64>(from);
    const ahead = value + (place - <f64>knot) * (load<f64>(from, 8) - value);
    store<f64>(phase + (<usize>m << 3), 2 * Math.PI * rateHz * (seconds - zeroSeconds) + ahead);
  }
}

/** Cosine and sine of a multiple of a phase. */
export function waves(phase: usize, harmonic: f64, count: i32, cosine: usize, sine: usize): void {
  for (let at: usize = 0; at < <usize>count << 3; at += 8) {
    const angle = harmonic * load<f64>(phase + at);
    store<f64>(cosine + at, cos(angle));
    store<f64>(sine + at, sin(angle));
  }
}

/**
 * Times at which a phase, given in the middle of each step, passes the multiples of `cell` from the `from`-th to the `to`-th.
 *
 * @param times - `to` - `from` + 1 values
 */
export function crossings(
  phase: usize,
  count: i32,
  cell: f64,
  from: i32,
  to: i32,
  stepSeconds: f64,
  times: usize,
): void {
  const last = count - 1;
  let m = 0;
  for (let k = from; k <= to; k++) {
    const wanted = <f64>k * cell;
    while (m < last - 1 && load<f64>(phase + (<usize>m << 3), 8) < wanted) m++;
    const before = load<f64>(phase + (<usize>m << 3));
    const share = (wanted - before) / (load<f64>(phase + (<usize>m << 3), 8) - before);
    store<f64>(times + (<usize>(k - from) << 3), (<f64>m + 0.5 + share) * stepSeconds);
  }
}
