// Demodulation (`partials/demodulate`): sums of weighted samples, turned back by every partial's phase.

// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;
// @ts-ignore: decorator
@external("math", "sin")
declare function sin(angle: f64): f64;

/**
 * All hops of a grid. Sample i lies at `firstSeconds` + i / `sampleRateHz`, frame m at `gridSeconds` + m * `hopSeconds`.
 *
 * @param samples - from sample `from` on; there are those of all hops, of `sampleCount` in all
 * @param course - what the phase is ahead at each of the `frames`, in cycles; 0 for none
 * @param partialCount - a multiple of 4
 * @param pairs - room for two values a sample of the longest hop, and `sums` for four a partial
 * @param weights - room for `frames` values
 * @param real - rows of `stride` values, one a partial, as `imaginary`: filled with peak amplitudes
 */
export function demodulate(
  samples: usize,
  from: i32,
  sampleCount: i32,
  sampleRateHz: f64,
  firstSeconds: f64,
  gridSeconds: f64,
  hopSeconds: f64,
  frames: i32,
  frequencyHz: f64,
  course: usize,
  partialCount: i32,
  pairs: usize,
  sums: usize,
  weights: usize,
  real: usize,
  imaginary: usize,
  stride: i32,
): void {
  memory.fill(weights, 0, <usize>frames << 3);
  memory.fill(real, 0, <usize>(partialCount * stride) << 3);
  memory.fill(imaginary, 0, <usize>(partialCount * stride) << 3);
  const shareStep = 1 / (sampleRateHz * hopSeconds);
  const angleStep = Math.PI * shareStep;
  const cosineStep = cos(angleStep);
  for (let m = -1; m < frames; m++) {
    const fromSeconds = gridSeconds + <f64>m * hopSeconds;
    // The one before that time would belong to the hop before; rounding must not move it here.
    const first = max<i32>(0, <i32>ceil<f64>((fromSeconds - firstSeconds) * sampleRateHz - 1e-9));
    const last = min<i32>(
      sampleCount - 1,
      <i32>ceil<f64>((fromSeconds + hopSeconds - firstSeconds) * sampleRateHz - 1e-9) - 1,
    );
    const count = last - first + 1;
    if (count <= 0) continue;
    const firstSinceGrid = firstSeconds + <f64>first / sampleRateHz - gridSeconds;
    const lastSinceGrid = firstSeconds + <f64>last / sampleRateHz - gridSeconds;
    let ahead: f64 = 0;
    let slope: f64 = 0;
    if (course !== 0) {
      const at = course + (<usize>max<i32>(0, m) << 3);
      ahead = load<f64>(at);
      if (m >= 0 && m + 1 < frames) slope = load<f64>(at, 8) - ahead;
    }
    const lastCycles = frequencyHz * lastSinceGrid + ahead + slope * (lastSinceGrid / hopSeconds - <f64>m);
    const windowAngle = Math.PI * (firstSinceGrid / hopSeconds - <f64>m);
    const step = 2 * Math.PI * (frequencyHz / sampleRateHz + slope * shareStep);
    const lastAngle = 2 * Math.PI * (lastCycles - floor<f64>(lastCycles));
    const rising = demodulateHop(
      samples + (<usize>(first - from) << 2),
      count,
      cos(windowAngle),
      cos(windowAngle - angleStep),
      2 * cosineStep,
      cos(step),
      sin(step),
      cos(lastAngle),
      sin(lastAngle),
      partialCount,
      pairs,
      sums,
    );
    if (m >= 0) addTo(weights, m, <f64>count - rising);
    if (m + 1 < frames) addTo(weights, m + 1, rising);
    for (let n = 0; n < partialCount; n++) {
      const sum = sums + (<usize>n << 5);
      const row = n * stride + m;
      if (m >= 0) {
        addTo(real, row, load<f64>(sum, 16));
        addTo(imaginary, row, load<f64>(sum, 24));
      }
      if (m + 1 < frames) {
        addTo(real, row + 1, load<f64>(sum));
        addTo(imaginary, row + 1, load<f64>(sum, 8));
      }
    }
  }
  for (let m = 0; m < frames; m++) {
    const weight = load<f64>(weights + (<usize>m << 3));
    const scale = weight > 0 ? 2 / weight : 0;
    for (let n = 0; n < partialCount; n++) {
      const at = <usize>(n * stride + m) << 3;
      store<f64>(real + at, load<f64>(real + at) * scale);
      store<f64>(imaginary + at, load<f64>(imaginary + at) * scale);
    }
  }
}

// @ts-ignore: decorator
@inline
function addTo(values: usize, index: i32, value: f64): void {
  const at = values + (<usize>index << 3);
  store<f64>(at, load<f64>(at) + value);
}

/**
 * One hop: weights the samples by the rising half of a Hann window and by the falling one, and fills for each partial n the sums of
 * both, each sample turned by exp(-2 pi i n times its phase), by the recursion of Goertzel (1958).
 *
 * @param cosine - of the window's angle at the first sample; `cosineBefore` one step earlier; `twice` 2 cos(step)
 * @param stepReal - exp(2 pi i times the cycles of the fundamental from one sample to the next), with `stepImaginary`
 * @param lastReal - exp(2 pi i times its cycles at the last sample), with `lastImaginary`
 * @param partialCount - a multiple of 4
 * @param pairs - room for two values a sample
 * @param sums - four values a partial: real and imaginary part of the rising sum, then of the falling one
 * @returns the sum of the rising weights
 */
function demodulateHop(
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
  // Four partials at a time: none has to wait for another's last step.
  for (let n = 0; n < partialCount; n += 4) {
    const realB = turnReal * stepReal - turnImaginary * stepImaginary;
    const imaginaryB = turnReal * stepImaginary + turnImaginary * stepReal;
    const realC = realB * stepReal - imaginaryB * stepImaginary;
    const imaginaryC = realB * stepImaginary + imaginaryB * stepReal;
    const realD = realC * stepReal - imaginaryC * stepImaginary;
    const imaginaryD = realC * stepImaginary + imaginaryC * stepReal;
    const twiceA = f64x2.splat(2 * turnReal);
    const twiceB = f64x2.splat(2 * realB);
    const twiceC = f64x2.splat(2 * realC);
    const twiceD = f64x2.splat(2 * realD);
    let a = f64x2.splat(0);
    let beforeA = f64x2.splat(0);
    let b = f64x2.splat(0);
    let beforeB = f64x2.splat(0);
    let c = f64x2.splat(0);
    let beforeC = f64x2.splat(0);
    let d = f64x2.splat(0);
    let beforeD = f64x2.splat(0);
    for (let at = pairs; at < end; at += 16) {
      const pair = v128.load(at);
      const nextA = f64x2.add(f64x2.sub(pair, beforeA), f64x2.mul(twiceA, a));
      const nextB = f64x2.add(f64x2.sub(pair, beforeB), f64x2.mul(twiceB, b));
      const nextC = f64x2.add(f64x2.sub(pair, beforeC), f64x2.mul(twiceC, c));
      const nextD = f64x2.add(f64x2.sub(pair, beforeD), f64x2.mul(twiceD, d));
      beforeA = a;
      a = nextA;
      beforeB = b;
      b = nextB;
      beforeC = c;
      c = nextC;
      beforeD = d;
      d = nextD;
    }
    const to = sums + (<usize>n << 5);
    turned(to, a, beforeA, turnReal, turnImaginary, backReal, backImaginary);
    const backRealB = backReal * lastReal - backImaginary * lastImaginary;
    const backImaginaryB = backReal * lastImaginary + backImaginary * lastReal;
    turned(to + 32, b, beforeB, realB, imaginaryB, backRealB, backImaginaryB);
    const backRealC = backRealB * lastReal - backImaginaryB * lastImaginary;
    const backImaginaryC = backRealB * lastImaginary + backImaginaryB * lastReal;
    turned(to + 64, c, beforeC, realC, imaginaryC, backRealC, backImaginaryC);
    const backRealD = backRealC * lastReal - backImaginaryC * lastImaginary;
    const backImaginaryD = backRealC * lastImaginary + backImaginaryC * lastReal;
    turned(to + 96, d, beforeD, realD, imaginaryD, backRealD, backImaginaryD);
    turnReal = realD * stepReal - imaginaryD * stepImaginary;
    turnImaginary = realD * stepImaginary + imaginaryD * stepReal;
    backReal = backRealD * lastReal - backImaginaryD * lastImaginary;
    backImaginary = backRealD * lastImaginary + backImaginaryD * lastReal;
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
