import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { MAIN_LOBE_BINS } from "../signal/averageSpectrum.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";

/** The strongest line of a passage that no partial explains. */
export interface UnexplainedLine {
  readonly frequencyHz: number;
  /** Power relative to all fitted partials together, in dB. */
  readonly levelDb: number;
}

/** Where lines are looked for. */
const LOWEST_HZ = 40;
/** A steady partial is no wider than this share of its frequency; a wavering one, four standard deviations. */
const LEAST_SPREAD = 0.006;
const SPREAD_DEVIATIONS = 4;

/**
 * Looks for sound beside the partials: another string, hum, a sympathetic string.
 *
 * @param frequenciesHz - the strings that are known to sound
 * @param totalPower - power of the fitted partials together
 * @param unsteadinessCents - how far the pitch moves: partials are that much wider
 * @returns null where nothing stands between the partials
 */
export function unexplainedLine(
  spectrum: AverageSpectrum,
  frequenciesHz: readonly number[],
  totalPower: number,
  unsteadinessCents: number,
): UnexplainedLine | null {
  let best = 0;
  let bestBin = -1;
  const { density, binHz } = spectrum;
  const spread = Math.max(LEAST_SPREAD, (SPREAD_DEVIATIONS * unsteadinessCents * Math.LN2) / 1200);
  const end = Math.ceil(ANALYSIS_TOP_HZ / binHz);
  for (let k = Math.ceil(LOWEST_HZ / binHz); k < end; k++) {
    if (density[k] <= best || density[k] < density[k - 1] || density[k] < density[k + 1]) continue;
    const hz = k * binHz;
    const away = Math.min(
      ...frequenciesHz.map((frequencyHz) =>
        Math.abs(hz - Math.max(1, Math.round(hz / frequencyHz)) * frequencyHz),
      ),
    );
    if (away < (MAIN_LOBE_BINS + 1.5) * binHz + spread * hz) continue;
    best = density[k];
    bestBin = k;
  }
  if (bestBin < 0 || !(totalPower > 0)) return null;
  // Its height, not its area: the area would take in the flank of a partial close by.
  const power = best * spectrum.noiseBandwidthHz;
  return { frequencyHz: bestBin * binHz, levelDb: 10 * Math.log10(power / totalPower) };
}
