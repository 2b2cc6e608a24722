// One hop of a demodulation (`partials/demodulate`): sums of weighted samples, turned back by every partial's phase.

/**
 * Weights the samples by the rising half of a Hann window and by the falling one, and fills for each partial n the sums of
 * both, each sample turned by exp(-2 pi i n times its phase), by the recursion of Goertzel (1958).
 *
 * @param cosine - of the window's angle at the first sample; `cosineBefore` one step earlier; `twice` 2 cos(step)
 * @param stepReal - exp(2 pi i times the cycles of the fundamental from one sample to the next), with `stepImaginary`
 * @param lastReal - exp(2 pi i times its cycles at the last sample), with `lastImaginary`
 * @param partialCount - an even number
 * @param pairs - room for two values a sample
 * @param sums - four values a partial: real and imaginary part of the rising sum, then of the falling one
 * @returns the sum of the rising weights
 */
export function demodulateHop(
  samples: usize,
  count: i32,
  cosine: f64,
  cosineBefore: f64,
  twice: f64,
  stepReal: f64,
  stepImaginary: f64,
  lastReal: f64,
  lastImaginary: f64,
  partialCount: i32,
  pairs: usize,
  sums: usize,
): f64 {
  let weights: f64 = 0;
  for (let i: usize = 0; i < <usize>count; i++) {
    const weight = 0.5 - 0.5 * cosine;
    weights += weight;
    const sample = <f64>load<f32>(samples + (i << 2));
    const rising = weight * sample;
    v128.store(pairs + (i << 4), f64x2(rising, sample - rising));
    const next = twice * cosine - cosineBefore;
    cosineBefore = cosine;
    cosine = next;
  }
  let turnReal = stepReal;
  let turnImaginary = stepImaginary;
  let backReal = lastReal;
  let backImaginary = lastImaginary;
  const end = pairs + (<usize>count << 4);
  // Two partials at a time: neither has to wait for the other's last step.
  for (let n = 0; n < partialCount; n += 2) {
    const realB = turnReal * stepReal - turnImaginary * stepImaginary;
    const imaginaryB = turnReal * stepImaginary + turnImaginary * stepReal;
    const twiceA = f64x2.splat(2 * turnReal);
    const twiceB = f64x2.splat(2 * realB);
    let a = f64x2.splat(0);
    let beforeA = f64x2.splat(0);
    let b = f64x2.splat(0);
    let beforeB = f64x2.splat(0);
    for (let at = pairs; at < end; at += 16) {
      const pair = v128.load(at);
      const nextA = f64x2.add(f64x2.sub(pair, beforeA), f64x2.mul(twiceA, a));
      const nextB = f64x2.add(f64x2.sub(pair, beforeB), f64x2.mul(twiceB, b));
      beforeA = a;
      a = nextA;
      beforeB = b;
      b = nextB;
    }
    const to = sums + (<usize>n << 5);
    turned(to, a, beforeA, turnReal, turnImaginary, backReal, backImaginary);
    const backRealB = backReal * lastReal - backImaginary * lastImaginary;
    const backImaginaryB = backReal * lastImaginary + backImaginary * lastReal;
    turned(to + 32, b, beforeB, realB, imaginaryB, backRealB, backImaginaryB);
    turnReal = realB * stepReal - imaginaryB * stepImaginary;
    turnImaginary = realB * stepImaginary + imaginaryB * stepReal;
    backReal = backRealB * lastReal - backImaginaryB * lastImaginary;
    backImaginary = backRealB * lastImaginary + backImaginaryB * lastReal;
  }
  return weights;
}

/** s - exp(-j w) s' is the sum of x(i) exp(j w (count - 1 - i)); the phase at the last sample turns it back. */
// @ts-ignore: decorator
@inline
function turned(
  to: usize,
  state: v128,
  before: v128,
  turnReal: f64,
  turnImaginary: f64,
  backReal: f64,
  backImaginary: f64,
): void {
  const real = f64x2.sub(state, f64x2.mul(f64x2.splat(turnReal), before));
  const imaginary = f64x2.mul(f64x2.splat(turnImaginary), before);
  const c = f64x2.splat(backReal);
  const s = f64x2.splat(backImaginary);
  const x = f64x2.add(f64x2.mul(real, c), f64x2.mul(imaginary, s));
  const y = f64x2.sub(f64x2.mul(imaginary, c), f64x2.mul(real, s));
  v128.store(to, v128.shuffle<f64>(x, y, 0, 2));
  v128.store(to, v128.shuffle<f64>(x, y, 1, 3), 16);
}
