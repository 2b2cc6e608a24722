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
  const risingReal = new Float64Array(partialCount);
  const risingImaginary = new Float64Array(partialCount);
  const allReal = new Float64Array(partialCount);
  const allImaginary = new Float64Array(partialCount);

  for (let m = -1; m < grid.count; m++) {
    const fromSeconds = grid.firstSeconds + m * grid.hopSeconds;
    const first = Math.max(0, Math.ceil((fromSeconds - firstSeconds) * sampleRateHz - 1e-9));
    const last = Math.min(
      samples.length - 1,
      Math.ceil((fromSeconds + grid.hopSeconds - firstSeconds) * sampleRateHz - 1e-9) - 1,
    );
    const ahead = courseCycles === null ? 0 : courseCycles[Math.max(0, m)];
    const slope =
      courseCycles === null || m < 0 || m + 1 >= grid.count ? 0 : courseCycles[m + 1] - courseCycles[m];
    risingReal.fill(0);
    risingImaginary.fill(0);
    allReal.fill(0);
    allImaginary.fill(0);
    let risingWeight = 0;
    for (let i = first; i <= last; i++) {
      const sinceGrid = firstSeconds + i / sampleRateHz - grid.firstSeconds;
      const share = sinceGrid / grid.hopSeconds - m;
      const rising = 0.5 - 0.5 * Math.cos(Math.PI * share);
      risingWeight += rising;
      const cycles = frequencyHz * sinceGrid + ahead + slope * share;
      const angle = -2 * Math.PI * (cycles - Math.floor(cycles));
      const stepReal = Math.cos(angle);
      const stepImaginary = Math.sin(angle);
      let turnReal = stepReal * samples[i];
      let turnImaginary = stepImaginary * samples[i];
      for (let n = 0; n < partialCount; n++) {
        allReal[n] += turnReal;
        allImaginary[n] += turnImaginary;
        risingReal[n] += turnReal * rising;
        risingImaginary[n] += turnImaginary * rising;
        const next = turnReal * stepReal - turnImaginary * stepImaginary;
        turnImaginary = turnReal * stepImaginary + turnImaginary * stepReal;
        turnReal = next;
      }
    }
    const samplesHere = Math.max(0, last - first + 1);
    if (m >= 0) weight[m] += samplesHere - risingWeight;
    if (m + 1 < grid.count) weight[m + 1] += risingWeight;
    for (let n = 0; n < partialCount; n++) {
      if (m >= 0) {
        real[n][m] += allReal[n] - risingReal[n];
        imaginary[n][m] += allImaginary[n] - risingImaginary[n];
      }
      if (m + 1 < grid.count) {
        real[n][m + 1] += risingReal[n];
        imaginary[n][m + 1] += risingImaginary[n];
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
