import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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
  const { density, binHz } = spectrum;
  const spread = Math.max(LEAST_SPREAD, (SPREAD_DEVIATIONS * unsteadinessCents * Math.LN2) / 1200);
  const first = Math.ceil(LOWEST_HZ / binHz);
  const end = Math.min(density.length - 1, Math.ceil(ANALYSIS_TOP_HZ / binHz));
  const rows = new KernelRows(ScratchUser.spectrum, 2, Math.max(density.length, frequenciesHz.length));
  rows.put(0, density);
  rows.put(1, Float64Array.from(frequenciesHz));
  const guardHz = (MAIN_LOBE_BINS + 1.5) * binHz;
  // biome-ignore format: arguments of a kernel
  const bestBin = kernels().functions.highestApart(rows.place(0), first, end, binHz, rows.place(1), frequenciesHz.length, guardHz, spread);
  if (bestBin < 0 || !(totalPower > 0)) return null;
  // Its height, not its area: the area would take in the flank of a partial close by.
  const power = density[bestBin] * spectrum.noiseBandwidthHz;
  return { frequencyHz: bestBin * binHz, levelDb: 10 * Math.log10(power / totalPower) };
}
