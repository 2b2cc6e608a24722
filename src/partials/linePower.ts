import { type AverageSpectrum, MAIN_LOBE_BINS } from "../signal/averageSpectrum.js";

/** How many bins a line is summed over. */
export const LINE_BINS = 2 * MAIN_LOBE_BINS + 1;

/**
 * Power of whatever stands at a frequency of a spectrum: the density summed over the width of one line, noise included.
 *
 * @returns power, 1 for a full-scale sine; 0 beyond the spectrum
 */
export function linePower(spectrum: AverageSpectrum, frequencyHz: number): number {
  const centre = Math.round(frequencyHz / spectrum.binHz);
  let sum = 0;
  for (let k = Math.max(0, centre - MAIN_LOBE_BINS); k <= centre + MAIN_LOBE_BINS; k++) {
    sum += spectrum.density[k] ?? 0;
  }
  return sum * spectrum.binHz;
}
