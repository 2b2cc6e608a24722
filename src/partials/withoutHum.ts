import { type AverageSpectrum, MAIN_LOBE_BINS } from "../signal/averageSpectrum.js";

/**
 * A spectrum with the lines of mains hum cut down to what stands beside them, and with them whatever partial lies so
 * close that the two can't be told apart in it.
 */
export function withoutHum(spectrum: AverageSpectrum, humFrequenciesHz: readonly number[]): AverageSpectrum {
  if (humFrequenciesHz.length === 0) return spectrum;
  const density = spectrum.density.slice();
  for (const humHz of humFrequenciesHz) {
    const centre = Math.round(humHz / spectrum.binHz);
    const from = Math.max(0, centre - MAIN_LOBE_BINS - 1);
    const to = Math.min(density.length - 1, centre + MAIN_LOBE_BINS + 1);
    density.fill(Math.min(spectrum.density[from], spectrum.density[to]), from, to + 1);
  }
  return { ...spectrum, density };
}
