import type { AnalysisSegment } from "./AnalysisSegment.js";
import { demodulate } from "./demodulate.js";
import type { FrameGrid } from "./FrameGrid.js";
import type { HarmonicFit } from "./HarmonicFit.js";
import { smoothFrames } from "./smoothFrames.js";

/**
 * Powers of a fit's partials in another channel of the same passage, along the course that the fit found.
 *
 * @returns one power a partial, noise taken off, at least 0; 1 is a full-scale sine
 */
export function partialPowers(
  segment: AnalysisSegment,
  fit: HarmonicFit,
  noiseDensity: readonly (number | null)[],
): number[] {
  const { hopSeconds, centSeconds } = fit.course;
  const grid: FrameGrid = { firstSeconds: fit.startSeconds, hopSeconds, count: centSeconds.length };
  const cyclesPerCent = (fit.frequencyHz * Math.LN2) / 1200;
  const cycles = centSeconds.map((value) => value * cyclesPerCent);
  const frames = smoothFrames(demodulate(segment, grid, fit.frequencyHz, cycles, fit.partials.length), grid);
  return frames.real.map((real, n) => {
    let sum = 0;
    for (let m = 0; m < grid.count; m++) sum += real[m] ** 2 + frames.imaginary[n][m] ** 2;
    return Math.max(0, sum / grid.count - (noiseDensity[n] ?? 0) * frames.noiseBandwidthHz);
  });
}
