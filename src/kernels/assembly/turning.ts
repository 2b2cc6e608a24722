// Partials that go along one course of the fundamental, all of them (`keyboard/droneParts`): partial n turns with the n-th
// power of the fundamental's phasor. A piece of the sound at a time, for all partials, so that it stays in the processor's cache.

/** Multiplies phasors by those of the fundamental: the next partial's. */
// @ts-ignore: decorator
@inline
function advance(real: usize, imaginary: usize, stepReal: usize, stepImaginary: usize): void {
  const a = v128.load(real);
  const b = v128.load(imaginary);
  const c = v128.load(stepReal);
  const s = v128.load(stepImaginary);
  v128.store(real, f64x2.sub(f64x2.mul(a, c), f64x2.mul(b, s)));
  v128.store(imaginary, f64x2.add(f64x2.mul(a, s), f64x2.mul(b, c)));
}

/** The same for one value at the end of an odd number of them. */
function advanceOne(real: usize, imaginary: usize, stepReal: usize, stepImaginary: usize): void {
  const a = load<f64>(real);
  const b = load<f64>(imaginary);
  const c = load<f64>(stepReal);
  const s = load<f64>(stepImaginary);
  store<f64>(real, a * c - b * s);
  store<f64>(imaginary, a * s + b * c);
}

/**
 * Sums of the samples of every block times the n-th power of a phasor: partial n, block b at n * blocks + b, n from 0 for the
 * first power.
 *
 * @param blockSamples - there are so many samples and phasors for every block
 * @param work - room for 2 * `blockSamples` values
 */
export function turnedSums(
  samples: usize,
  stepReal: usize,
  stepImaginary: usize,
  blockSamples: i32,
  blocks: i32,
  partialCount: i32,
  work: usize,
  real: usize,
  imaginary: usize,
): void {
  const bytes: usize = <usize>blockSamples << 3;
  const workImaginary = work + bytes;
  for (let block: usize = 0; block < <usize>blocks; block++) {
    const from = block * bytes;
    memory.copy(work, stepReal + from, bytes);
    memory.copy(workImaginary, stepImaginary + from, bytes);
    for (let n: usize = 0; n < <usize>partialCount; n++) {
      let sumReal = f64x2.splat(0);
      let sumImaginary = f64x2.splat(0);
      let at: usize = 0;
      for (; at + 16 <= bytes; at += 16) {
        const sample = v128.load(samples + from + at);
        sumReal = f64x2.add(sumReal, f64x2.mul(sample, v128.load(work + at)));
        sumImaginary = f64x2.add(sumImaginary, f64x2.mul(sample, v128.load(workImaginary + at)));
        advance(work + at, workImaginary + at, stepReal + from + at, stepImaginary + from + at);
      }
      let lastReal: f64 = 0;
      let lastImaginary: f64 = 0;
      if (at < bytes) {
        const sample = load<f64>(samples + from + at);
        lastReal = sample * load<f64>(work + at);
        lastImaginary = sample * load<f64>(workImaginary + at);
        advanceOne(work + at, workImaginary + at, stepReal + from + at, stepImaginary + from + at);
      }
      const cell = (n * <usize>blocks + block) << 3;
      store<f64>(real + cell, f64x2.extract_lane(sumReal, 0) + f64x2.extract_lane(sumReal, 1) + lastReal);
      store<f64>(
        imaginary + cell,
        f64x2.extract_lane(sumImaginary, 0) + f64x2.extract_lane(sumImaginary, 1) + lastImaginary,
      );
    }
  }
}

/**
 * Adds partials to a sound: the real part of amplitude times the n-th power of the phasor. Amplitudes go along straight lines
 * from each centre to the next, `centreSamples` apart, the first at the first sample.
 *
 * @param amplitudesReal - `centres` a partial (two or more), one partial after another, as `amplitudesImaginary`
 * @param work - room for 2 * `pieceSamples` values; so many samples are done at a time
 */
export function addPartials(
  sound: usize,
  stepReal: usize,
  stepImaginary: usize,
  count: i32,
  centreSamples: f64,
  centres: i32,
  amplitudesReal: usize,
  amplitudesImaginary: usize,
  partialCount: i32,
  pieceSamples: i32,
  work: usize,
): void {
  const workImaginary = work + (<usize>pieceSamples << 3);
  const share = 1 / centreSamples;
  let start = 0;
  while (start < count) {
    const centre = min<i32>(centres - 2, <i32>(<f64>start / centreSamples));
    const next = centre === centres - 2 ? count : max<i32>(start + 1, <i32>ceil<f64>(<f64>(centre + 1) * centreSamples));
    const end = min<i32>(min<i32>(start + pieceSamples, next), count);
    const from: usize = <usize>start << 3;
    const bytes: usize = <usize>(end - start) << 3;
    const position = (<f64>start - <f64>centre * centreSamples) * share;
    memory.copy(work, stepReal + from, bytes);
    memory.copy(workImaginary, stepImaginary + from, bytes);
    for (let n: usize = 0; n < <usize>partialCount; n++) {
      const cell = (n * <usize>centres + <usize>centre) << 3;
      const slopeA = load<f64>(amplitudesReal + cell, 8) - load<f64>(amplitudesReal + cell);
      const slopeB = load<f64>(amplitudesImaginary + cell, 8) - load<f64>(amplitudesImaginary + cell);
      const firstA = load<f64>(amplitudesReal + cell) + position * slopeA;
      const firstB = load<f64>(amplitudesImaginary + cell) + position * slopeB;
      let a = f64x2(firstA, firstA + share * slopeA);
      let b = f64x2(firstB, firstB + share * slopeB);
      const stepA = f64x2.splat(2 * share * slopeA);
      const stepB = f64x2.splat(2 * share * slopeB);
      let at: usize = 0;
      for (; at + 16 <= bytes; at += 16) {
        const to = sound + from + at;
        const value = f64x2.sub(f64x2.mul(a, v128.load(work + at)), f64x2.mul(b, v128.load(workImaginary + at)));
        v128.store(to, f64x2.add(v128.load(to), value));
        advance(work + at, workImaginary + at, stepReal + from + at, stepImaginary + from + at);
        a = f64x2.add(a, stepA);
        b = f64x2.add(b, stepB);
      }
      if (at < bytes) {
        const to = sound + from + at;
        const value =
          f64x2.extract_lane(a, 0) * load<f64>(work + at) - f64x2.extract_lane(b, 0) * load<f64>(workImaginary + at);
        store<f64>(to, load<f64>(to) + value);
        advanceOne(work + at, workImaginary + at, stepReal + from + at, stepImaginary + from + at);
      }
    }
    start = end;
  }
}
