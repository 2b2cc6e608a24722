import type { AnalysisSegment } from "./AnalysisSegment.js";
import type { FrameGrid } from "./FrameGrid.js";

/** Complex amplitudes of partials 1 to N at the frames of a grid; magnitude is the peak amplitude of the partial. */
export interface PartialFrames {
  /** Indexed [partial number - 1][frame]. */
  readonly real: readonly Float64Array[];
  readonly imaginary: readonly Float64Array[];
}

/**
 * Brings each partial down to 0 Hz along a given course of the fundamental, and averages it over Hann-shaped frames.
 *
 * Partial n is multiplied by exp(-j 2 pi n phase(t)); what is left is its slowly moving complex amplitude. Where the
 * course is right, this holds for a swinging pitch as well as for a steady one.
 *
 * @param frequencyHz - base frequency of the course
 * @param courseCycles - what the phase of the fundamental goes ahead of that base frequency, in cycles, at each frame
 * (straight lines between); null for a constant frequency
 * @param partialCount - number of partials, the highest below half the sample rate
 */
export function demodulate(
  segment: AnalysisSegment,
  grid: FrameGrid,
  frequencyHz: number,
  courseCycles: Float64Array | null,
  partialCount: number,
): PartialFrames {
  const { samples, sampleRateHz, firstSeconds } = segment;
  const real = Array.from({ length: partialCount }, () => new Float64Array(grid.count));
  const imaginary = Array.from({ length: partialCount }, () => new Float64Array(grid.count));
  const weight = new Float64Array(grid.count);
  const shareStep = 1 / (sampleRateHz * grid.hopSeconds);
  const longest = Math.ceil(sampleRateHz * grid.hopSeconds) + 1;
  const rising = new Float64Array(longest);
  const falling = new Float64Array(longest);
  const sums = new Float64Array(8 * Math.ceil(partialCount / 2));

  for (let m = -1; m < grid.count; m++) {
    const fromSeconds = grid.firstSeconds + m * grid.hopSeconds;
    const first = Math.max(0, Math.ceil((fromSeconds - firstSeconds) * sampleRateHz - 1e-9));
    const last = Math.min(
      samples.length - 1,
      Math.ceil((fromSeconds + grid.hopSeconds - firstSeconds) * sampleRateHz - 1e-9) - 1,
    );
    const count = last - first + 1;
    if (count <= 0) continue;
    const sinceGrid = (i: number) => firstSeconds + i / sampleRateHz - grid.firstSeconds;
    const risingWeight = shape(
      rising,
      falling,
      samples.subarray(first, last + 1),
      Math.PI * (sinceGrid(first) / grid.hopSeconds - m),
      Math.PI * shareStep,
    );
    const ahead = courseCycles === null ? 0 : courseCycles[Math.max(0, m)];
    const slope =
      courseCycles === null || m < 0 || m + 1 >= grid.count ? 0 : courseCycles[m + 1] - courseCycles[m];
    const lastSinceGrid = sinceGrid(last);
    const lastCycles = frequencyHz * lastSinceGrid + ahead + slope * (lastSinceGrid / grid.hopSeconds - m);
    turnBack(sums, rising, falling, count, frequencyHz / sampleRateHz + slope * shareStep, lastCycles);
    if (m >= 0) weight[m] += count - risingWeight;
    if (m + 1 < grid.count) weight[m + 1] += risingWeight;
    for (let n = 0; n < partialCount; n++) {
      if (m >= 0) {
        real[n][m] += sums[4 * n + 2];
        imaginary[n][m] += sums[4 * n + 3];
      }
      if (m + 1 < grid.count) {
        real[n][m + 1] += sums[4 * n];
        imaginary[n][m + 1] += sums[4 * n + 1];
      }
    }
  }
  for (let m = 0; m < grid.count; m++) {
    const scale = weight[m] > 0 ? 2 / weight[m] : 0;
    for (let n = 0; n < partialCount; n++) {
      real[n][m] *= scale;
      imaginary[n][m] *= scale;
    }
  }
  return { real, imaginary };
}

/**
 * Weights the samples of one hop by the rising half of the Hann window and by the falling one.
 *
 * @param angle - of the window at the first sample, 0 at the start of the hop and pi at its end
 * @returns the sum of the rising weights
 */
function shape(
  rising: Float64Array,
  falling: Float64Array,
  samples: Float32Array,
  angle: number,
  angleStep: number,
): number {
  const twice = 2 * Math.cos(angleStep);
  let cosine = Math.cos(angle);
  let before = Math.cos(angle - angleStep);
  let sum = 0;
  for (let i = 0; i < samples.length; i++) {
    const weight = 0.5 - 0.5 * cosine;
    sum += weight;
    rising[i] = weight * samples[i];
    falling[i] = samples[i] - rising[i];
    const next = twice * cosine - before;
    before = cosine;
    cosine = next;
  }
  return sum;
}

/**
 * For each partial n the sums of rising(i) exp(-j 2 pi n cycles(i)) and of the same with `falling`, by the recursion of
 * Goertzel (1958), since the cycles of the fundamental go evenly through a hop: `cycleStep` a sample, to `lastCycles`.
 *
 * @param sums - four numbers a partial: real and imaginary part of the first sum, then of the second
 */
function turnBack(
  sums: Float64Array,
  rising: Float64Array,
  falling: Float64Array,
  count: number,
  cycleStep: number,
  lastCycles: number,
): void {
  const stepReal = Math.cos(2 * Math.PI * cycleStep);
  const stepImaginary = Math.sin(2 * Math.PI * cycleStep);
  const angle = 2 * Math.PI * (lastCycles - Math.floor(lastCycles));
  const lastReal = Math.cos(angle);
  const lastImaginary = Math.sin(angle);
  let turnReal = stepReal;
  let turnImaginary = stepImaginary;
  let backReal = lastReal;
  let backImaginary = lastImaginary;
  // Two partials at a time: neither has to wait for the other's last step.
  for (let at = 0; at < sums.length; at += 8) {
    const realB = turnReal * stepReal - turnImaginary * stepImaginary;
    const imaginaryB = turnReal * stepImaginary + turnImaginary * stepReal;
    const twiceA = 2 * turnReal;
    const twiceB = 2 * realB;
    let upA = 0;
    let upBeforeA = 0;
    let downA = 0;
    let downBeforeA = 0;
    let upB = 0;
    let upBeforeB = 0;
    let downB = 0;
    let downBeforeB = 0;
    for (let i = 0; i < count; i++) {
      const up = rising[i];
      const down = falling[i];
      const nextUpA = up - upBeforeA + twiceA * upA;
      const nextDownA = down - downBeforeA + twiceA * downA;
      const nextUpB = up - upBeforeB + twiceB * upB;
      const nextDownB = down - downBeforeB + twiceB * downB;
      upBeforeA = upA;
      upA = nextUpA;
      downBeforeA = downA;
      downA = nextDownA;
      upBeforeB = upB;
      upB = nextUpB;
      downBeforeB = downB;
      downB = nextDownB;
    }
    // s - exp(-j w) s' is the sum of x(i) exp(j w (count - 1 - i)); the phase at the last sample turns it back.
    turn(sums, at, upA - turnReal * upBeforeA, turnImaginary * upBeforeA, backReal, backImaginary);
    turn(sums, at + 2, downA - turnReal * downBeforeA, turnImaginary * downBeforeA, backReal, backImaginary);
    const backRealB = backReal * lastReal - backImaginary * lastImaginary;
    const backImaginaryB = backReal * lastImaginary + backImaginary * lastReal;
    turn(sums, at + 4, upB - realB * upBeforeB, imaginaryB * upBeforeB, backRealB, backImaginaryB);
    turn(sums, at + 6, downB - realB * downBeforeB, imaginaryB * downBeforeB, backRealB, backImaginaryB);
    turnReal = realB * stepReal - imaginaryB * stepImaginary;
    turnImaginary = realB * stepImaginary + imaginaryB * stepReal;
    backReal = backRealB * lastReal - backImaginaryB * lastImaginary;
    backImaginary = backRealB * lastImaginary + backImaginaryB * lastReal;
  }
}

function turn(
  sums: Float64Array,
  at: number,
  real: number,
  imaginary: number,
  backReal: number,
  backImaginary: number,
): void {
  sums[at] = real * backReal + imaginary * backImaginary;
  sums[at + 1] = imaginary * backReal - real * backImaginary;
}
