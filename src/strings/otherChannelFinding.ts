import type { Finding } from "../audio/Finding.js";
import type { HarmonicFit } from "../partials/HarmonicFit.js";
import { noiseBetweenPartials } from "../partials/noiseBetweenPartials.js";
import type { PartialsElsewhere } from "../partials/partialsElsewhere.js";
import { unexplainedLine } from "../partials/unexplainedLine.js";
import { withoutHum } from "../partials/withoutHum.js";
import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { totalOf } from "../signal/totalOf.js";

/** The same bounds as in the channel that the string is read from. */
const SEVERAL_STRINGS_DB = -12;
const OTHER_SOUND_DB = -26;
/** A line is none unless it stands this far above the noise around it. */
const LINE_OVER_NOISE = 30;

/**
 * What another channel of a passage holds besides the string that was read: a line between its partials, or power at its
 * partials that does not go along with it. Null where it is nothing, or too weak against that channel to be clearly there.
 *
 * @param unsteadinessCents - how far the pitch moves: partials are that much wider
 */
export function otherChannelFinding(
  spectrum: AverageSpectrum,
  fit: HarmonicFit,
  { strayPower, strayNumber }: PartialsElsewhere,
  unsteadinessCents: number,
  humFrequenciesHz: readonly number[],
): Finding | null {
  const total = totalOf(spectrum.density) * spectrum.binHz;
  if (!(total > 0)) return null;
  const line = unexplainedLine(
    withoutHum(spectrum, humFrequenciesHz),
    [fit.frequencyHz],
    total,
    unsteadinessCents,
  );
  const isLine =
    line !== null &&
    total * 10 ** (line.levelDb / 10) > LINE_OVER_NOISE * noiseAt(spectrum, fit, line.frequencyHz);
  const strayDb = strayPower > 0 ? 10 * Math.log10(strayPower / total) : Number.NEGATIVE_INFINITY;
  const lineDb = isLine ? line.levelDb : Number.NEGATIVE_INFINITY;
  const levelDb = Math.max(strayDb, lineDb);
  if (levelDb <= OTHER_SOUND_DB) return null;
  const several = levelDb > SEVERAL_STRINGS_DB;
  return {
    code: several ? "several-strings" : "other-sound",
    severity: several ? "warning" : "info",
    values: {
      frequencyHz: isLine && lineDb >= strayDb ? line.frequencyHz : (strayNumber ?? 1) * fit.frequencyHz,
      levelDb,
    },
  };
}

/** Power of the noise in one line's width. */
function noiseAt(spectrum: AverageSpectrum, { frequencyHz, partials }: HarmonicFit, lineHz: number): number {
  const number = Math.min(partials.length, Math.max(1, Math.round(lineHz / frequencyHz)));
  return (noiseBetweenPartials(spectrum, frequencyHz, number) ?? 0) * spectrum.noiseBandwidthHz;
}
