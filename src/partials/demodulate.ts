import { KernelRows } from "../kernels/KernelRows.js";
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
  const { count, hopSeconds } = grid;
  // The kernel takes four at a time.
  const rowCount = 4 * Math.ceil(partialCount / 4);
  const longest = Math.ceil(sampleRateHz * hopSeconds) + 1;
  // One hop before the grid and one after, and what rounding may add.
  const placeOf = (hops: number) =>
    Math.round((grid.firstSeconds + hops * hopSeconds - firstSeconds) * sampleRateHz);
  const from = Math.min(samples.length, Math.max(0, placeOf(-1) - 1));
  const to = Math.max(from, Math.min(samples.length, placeOf(count) + 2));
  // Rows of frames: real and imaginary parts, weights, the course.
  const rows = new KernelRows(ScratchUser.frames, 2 * rowCount + 2, count);
  const [realAt, imaginaryAt, weightsAt] = [rows.place(0), rows.place(rowCount), rows.place(2 * rowCount)];
  const courseAt = courseCycles === null ? 0 : rows.place(2 * rowCount + 1);
  if (courseCycles !== null) rows.put(2 * rowCount + 1, courseCycles);
  const sumsAt = kernels().scratch(
    (4 * rowCount + 2 * longest) * VALUE_BYTES + (to - from) * samples.BYTES_PER_ELEMENT,
    ScratchUser.demodulation,
  );
  const pairsAt = sumsAt + 4 * rowCount * VALUE_BYTES;
  const samplesAt = pairsAt + 2 * longest * VALUE_BYTES;
  const { functions, f32 } = kernels();
  f32.set(samples.subarray(from, to), samplesAt / samples.BYTES_PER_ELEMENT);
  // biome-ignore format: arguments of a kernel
  functions.demodulate(samplesAt, from, samples.length, sampleRateHz, firstSeconds, grid.firstSeconds, hopSeconds, count, frequencyHz, courseAt, rowCount, pairsAt, sumsAt, weightsAt, realAt, imaginaryAt, rows.stride);
  return {
    real: Array.from({ length: partialCount }, (_, n) => rows.copy(n)),
    imaginary: Array.from({ length: partialCount }, (_, n) => rows.copy(rowCount + n)),
  };
}
