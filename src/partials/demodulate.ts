import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import type { AnalysisSegment } from "./AnalysisSegment.js";
import type { FrameGrid } from "./FrameGrid.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

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
 * course is right, this holds for a swinging pitch as well as for a steady one. By a kernel (`kernels/assembly/demodulation.ts`).
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
  const evenCount = partialCount + (partialCount % 2);
  const longest = Math.ceil(sampleRateHz * grid.hopSeconds) + 1;
  // One hop before the grid and one after, and what rounding may add.
  const placeOf = (hops: number) =>
    Math.round((grid.firstSeconds + hops * grid.hopSeconds - firstSeconds) * sampleRateHz);
  const from = Math.min(samples.length, Math.max(0, placeOf(-1) - 1));
  const to = Math.max(from, Math.min(samples.length, placeOf(grid.count) + 2));
  const sumsAt = kernels().scratch(
    4 * evenCount * VALUE_BYTES + 2 * longest * VALUE_BYTES + (to - from) * samples.BYTES_PER_ELEMENT,
    ScratchUser.demodulation,
  );
  const pairsAt = sumsAt + 4 * evenCount * VALUE_BYTES;
  const samplesAt = pairsAt + 2 * longest * VALUE_BYTES;
  const { functions, f32, f64 } = kernels();
  f32.set(samples.subarray(from, to), samplesAt / samples.BYTES_PER_ELEMENT);
  const sums = f64.subarray(sumsAt / VALUE_BYTES, sumsAt / VALUE_BYTES + 4 * evenCount);
  const angleStep = Math.PI * shareStep;

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
    const ahead = courseCycles === null ? 0 : courseCycles[Math.max(0, m)];
    const slope =
      courseCycles === null || m < 0 || m + 1 >= grid.count ? 0 : courseCycles[m + 1] - courseCycles[m];
    const lastSinceGrid = sinceGrid(last);
    const lastCycles = frequencyHz * lastSinceGrid + ahead + slope * (lastSinceGrid / grid.hopSeconds - m);
    const windowAngle = Math.PI * (sinceGrid(first) / grid.hopSeconds - m);
    const step = 2 * Math.PI * (frequencyHz / sampleRateHz + slope * shareStep);
    const lastAngle = 2 * Math.PI * (lastCycles - Math.floor(lastCycles));
    // biome-ignore format: arguments of a kernel
    const risingWeight = functions.demodulateHop(samplesAt + (first - from) * samples.BYTES_PER_ELEMENT, count, Math.cos(windowAngle), Math.cos(windowAngle - angleStep), 2 * Math.cos(angleStep), Math.cos(step), Math.sin(step), Math.cos(lastAngle), Math.sin(lastAngle), evenCount, pairsAt, sumsAt);
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
