import {
  type Band,
  HIGHEST_EDGE_HZ,
  LOW_REGISTER_EDGE_HZ,
  LOWEST_EDGE_HZ,
  octaveBands,
} from "./bandEdges.js";

/** One partial of some string: where it lies and how strong it is. */
export interface PartialEnergy {
  readonly frequencyHz: number;
  /** Power in any unit, the same for all. */
  readonly power: number;
}

/** How strong the low register is. Room, microphone and strings are in it: it serves comparison. */
export interface LowRegister {
  /** 10 lg(energy of 44.7-177.8 Hz / energy of 177.8-2818.4 Hz), or with another edge, unweighted; null where either holds nothing. */
  readonly lowRegisterDb: number | null;
  /** Octave bands relative to their sum, keyed by nominal midband; null where no partial falls. */
  readonly octaveBandsDb: Readonly<Record<string, number | null>>;
  /** Power-weighted mean frequency of the partials between 44.7 and 2818.4 Hz. */
  readonly centroidHz: number | null;
}

/**
 * Low-register measures of a set of partials (fitted ones, so that noise and hum stay out).
 *
 * @param lowEdgeHz - where the low register ends
 */
export function lowRegister(
  partials: readonly PartialEnergy[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
): LowRegister {
  const inside = partials.filter(isInside);
  const total = sum(inside);
  const low = sum(inside.filter(({ frequencyHz }) => frequencyHz < lowEdgeHz));
  const rest = total - low;
  const weighted = inside.reduce((all, { frequencyHz, power }) => all + frequencyHz * power, 0);
  return {
    lowRegisterDb: low > 0 && rest > 0 ? 10 * Math.log10(low / rest) : null,
    octaveBandsDb: Object.fromEntries(
      octaveBands.map((band) => [String(band.nominalHz), bandLevelDb(inside, band)]),
    ),
    centroidHz: total > 0 ? weighted / total : null,
  };
}

/** Level of the partials within a band relative to all from 44.7 to 2818.4 Hz, in dB; null where none falls in it. */
export function bandLevelDb(partials: readonly PartialEnergy[], band: Band): number | null {
  const power = sum(
    partials.filter(({ frequencyHz }) => frequencyHz >= band.lowerHz && frequencyHz < band.upperHz),
  );
  return power > 0 ? 10 * Math.log10(power / sum(partials.filter(isInside))) : null;
}

function isInside({ frequencyHz, power }: PartialEnergy): boolean {
  return frequencyHz >= LOWEST_EDGE_HZ && frequencyHz < HIGHEST_EDGE_HZ && power > 0;
}

function sum(partials: readonly PartialEnergy[]): number {
  return partials.reduce((total, { power }) => total + power, 0);
}
