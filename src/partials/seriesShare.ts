import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { LINE_BINS, linePower } from "./linePower.js";

/** A line counts when it stands this far above the noise between lines. */
const LINE_OVER_NOISE = 10;

/**
 * How much of the power of a harmonic series stands in some of its partials.
 *
 * @param wanted - which partial numbers to count
 * @returns their share of the power of all partials, and how many of them are clear lines
 */
export function seriesShare(
  spectrum: AverageSpectrum,
  frequencyHz: number,
  noiseDensity: number,
  wanted: (number: number) => boolean,
): { share: number; lines: number } {
  const floor = noiseDensity * spectrum.binHz * LINE_BINS;
  let inside = 0;
  let total = 0;
  let lines = 0;
  for (let number = 1; number * frequencyHz < ANALYSIS_TOP_HZ; number++) {
    const power = linePower(spectrum, number * frequencyHz) - floor;
    if (power <= 0) continue;
    total += power;
    if (!wanted(number)) continue;
    if (power > LINE_OVER_NOISE * floor) lines++;
    inside += power;
  }
  return { share: total > 0 ? inside / total : 0, lines };
}
