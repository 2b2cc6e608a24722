// Fourier transforms of interleaved complex values (f64), two lanes at a time: one complex value fills a register.
// Stockham's ordering (no bit reversal), radix 4 with a last step of radix 2 where the size asks for it; Van Loan,
// Computational Frameworks for the Fast Fourier Transform (SIAM 1992), chapter 1; from memory.

// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;
// @ts-ignore: decorator
@external("math", "sin")
declare function sin(angle: f64): f64;

const COMPLEX: usize = 16;
/** Bytes of one entry of the table: three factors, each as real and imaginary part. */
const ENTRY: usize = 48;

// @ts-ignore: decorator
@inline
function swapped(value: v128): v128 {
  return v128.shuffle<f64>(value, value, 1, 0);
}

/** The value times a factor whose parts fill both lanes; the lower lane of the imaginary one has its sign turned. */
// @ts-ignore: decorator
@inline
function times(value: v128, real: v128, imaginary: v128): v128 {
  return f64x2.add(f64x2.mul(value, real), f64x2.mul(swapped(value), imaginary));
}

/**
 * Transforms `size` complex values at `values`, using as many at `work`.
 *
 * @param factors - for every step of radix 4 its (size of the step / 4) entries exp(-2 pi i p j / size of the step), j = 1, 2, 3
 * @returns where the result is: `values` or `work`
 */
export function transform(values: usize, work: usize, factors: usize, size: i32): usize {
  const minusBelow = f64x2(-1, 1);
  const minusAbove = f64x2(1, -1);
  const quarter: usize = (<usize>size >> 2) * COMPLEX;
  let stride: usize = COMPLEX;
  let left = size;
  while (left >= 4) {
    const count = left >> 2;
    for (let p = 0; p < count; p++) {
      const real1 = v128.load64_splat(factors);
      const imaginary1 = f64x2.mul(v128.load64_splat(factors, 8), minusBelow);
      const real2 = v128.load64_splat(factors, 16);
      const imaginary2 = f64x2.mul(v128.load64_splat(factors, 24), minusBelow);
      const real3 = v128.load64_splat(factors, 32);
      const imaginary3 = f64x2.mul(v128.load64_splat(factors, 40), minusBelow);
      factors += ENTRY;
      let from = values + <usize>p * stride;
      let to = work + 4 * <usize>p * stride;
      const end = from + stride;
      while (from < end) {
        const a = v128.load(from);
        const b = v128.load(from + quarter);
        const c = v128.load(from + 2 * quarter);
        const d = v128.load(from + 3 * quarter);
        const sum = f64x2.add(a, c);
        const difference = f64x2.sub(a, c);
        const otherSum = f64x2.add(b, d);
        const otherTurned = f64x2.mul(swapped(f64x2.sub(b, d)), minusAbove);
        v128.store(to, f64x2.add(sum, otherSum));
        v128.store(to + stride, times(f64x2.add(difference, otherTurned), real1, imaginary1));
        v128.store(to + 2 * stride, times(f64x2.sub(sum, otherSum), real2, imaginary2));
        v128.store(to + 3 * stride, times(f64x2.sub(difference, otherTurned), real3, imaginary3));
        from += COMPLEX;
        to += COMPLEX;
      }
    }
    stride <<= 2;
    left >>= 2;
    const other = values;
    values = work;
    work = other;
  }
  if (left < 2) return values;
  const half: usize = (<usize>size >> 1) * COMPLEX;
  for (let at: usize = 0; at < half; at += COMPLEX) {
    const a = v128.load(values + at);
    const b = v128.load(values + at + half);
    v128.store(work + at, f64x2.add(a, b));
    v128.store(work + at + half, f64x2.sub(a, b));
  }
  return work;
}

/** The inverse, divided by the size: real and imaginary parts change places before and after. */
export function inverse(values: usize, work: usize, factors: usize, size: i32): usize {
  const end = <usize>size * COMPLEX;
  for (let at: usize = 0; at < end; at += COMPLEX) v128.store(values + at, swapped(v128.load(values + at)));
  const result = transform(values, work, factors, size);
  const share = f64x2.splat(1 / <f64>size);
  for (let at: usize = 0; at < end; at += COMPLEX) {
    v128.store(result + at, f64x2.mul(swapped(v128.load(result + at)), share));
  }
  return result;
}

/**
 * Transforms real values, two by two as complex ones of half the size, and fills bins 0 to half of the size.
 *
 * @param half - half of the size, 2 or more; there is room for half + 1 complex values at `values` and at `work`
 * @param factors - those of a transform of `half`
 * @param turns - exp(-2 pi i k / size) for k from 0 to half / 2
 */
export function transformReal(values: usize, work: usize, factors: usize, turns: usize, half: i32): usize {
  const result = transform(values, work, factors, half);
  const minusBelow = f64x2(-1, 1);
  const conjugate = f64x2(1, -1);
  const halves = f64x2.splat(0.5);
  const first = v128.load(result);
  const turned = swapped(first);
  const sum = f64x2.extract_lane(f64x2.add(first, turned), 0);
  const difference = f64x2.extract_lane(f64x2.sub(first, turned), 0);
  let near = result + COMPLEX;
  let far = result + (<usize>half - 1) * COMPLEX;
  let turn = turns + COMPLEX;
  while (near <= far) {
    const a = f64x2.mul(v128.load(near), halves);
    const b = f64x2.mul(f64x2.mul(v128.load(far), conjugate), halves);
    const even = f64x2.add(a, b);
    // The odd values' bin is the difference over i, and is turned by its place.
    const odd = f64x2.mul(swapped(f64x2.sub(a, b)), conjugate);
    const moved = times(odd, v128.load64_splat(turn), f64x2.mul(v128.load64_splat(turn, 8), minusBelow));
    v128.store(near, f64x2.add(even, moved));
    v128.store(far, f64x2.mul(f64x2.sub(even, moved), conjugate));
    near += COMPLEX;
    far -= COMPLEX;
    turn += COMPLEX;
  }
  store<f64>(result, sum);
  store<f64>(result, 0, 8);
  store<f64>(result + <usize>half * COMPLEX, difference);
  store<f64>(result + <usize>half * COMPLEX, 0, 8);
  return result;
}

/** Fills the factors of a transform of `size` values, and `turns`, exp(-pi i k / size) for k from 0 to size / 2. */
export function makeFactors(size: i32, factors: usize, turns: usize): void {
  for (let left = size; left >= 4; left >>= 2) {
    for (let p = 0; p < left >> 2; p++) {
      for (let j = 1; j <= 3; j++) {
        const angle = (-2 * Math.PI * <f64>p * <f64>j) / <f64>left;
        store<f64>(factors, cos(angle));
        store<f64>(factors, sin(angle), 8);
        factors += COMPLEX;
      }
    }
  }
  for (let k = 0; k <= size >> 1; k++) {
    const angle = (Math.PI * <f64>k) / <f64>size;
    store<f64>(turns, cos(angle));
    store<f64>(turns, -sin(angle), 8);
    turns += COMPLEX;
  }
}
