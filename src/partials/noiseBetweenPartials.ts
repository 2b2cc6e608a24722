import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { MAIN_LOBE_BINS } from "../signal/averageSpectrum.js";
import { median } from "../signal/median.js";

/**
 * Noise density beside partial n: the median of the spectrum between it and its neighbours on both sides.
 *
 * The median leaves hum lines and partials of other strings out. It is divided by what the median of an averaged
 * periodogram is short of its mean (chi-squared with two degrees of freedom a segment; Wilson & Hilferty 1931).
 *
 * @returns power per hertz; null where the partials stand too close together for anything between them
 */
export function noiseBetweenPartials(
  spectrum: AverageSpectrum,
  frequencyHz: number,
  number: number,
): number | null {
  const guardHz = Math.max(0.3 * frequencyHz, (MAIN_LOBE_BINS + 1) * spectrum.binHz);
  // Far from a high string's partials the noise may be another than beside them.
  const reach = Math.ceil((150 + guardHz) / spectrum.binHz);
  const partialBin = (number * frequencyHz) / spectrum.binHz;
  const [below, above] = [number - 1, number].map((side) => {
    const from = Math.ceil((Math.max(side * frequencyHz, 20) + guardHz) / spectrum.binHz);
    const to = Math.floor(((side + 1) * frequencyHz - guardHz) / spectrum.binHz);
    const first = Math.max(from, 0, Math.ceil(partialBin - reach));
    const last = Math.min(to, spectrum.density.length - 1, Math.floor(partialBin + reach));
    return spectrum.density.subarray(first, Math.max(first, last + 1));
  });
  if (below.length + above.length === 0) return null;
  const values = new Float64Array(below.length + above.length);
  values.set(below);
  values.set(above, below.length);
  const freedom = 2 * Math.max(1, spectrum.segmentCount * 0.75);
  return median(values) / (1 - 2 / (9 * freedom)) ** 3;
}
