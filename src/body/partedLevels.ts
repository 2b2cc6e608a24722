import { powerToDb } from "../units/decibels.js";
import { HIGHEST_EDGE_HZ, LOW_REGISTER_EDGE_HZ, LOWEST_EDGE_HZ } from "./bandEdges.js";
import type { PartialEnergy } from "./lowRegister.js";

/** What a string brings below and above the edge of the low register, relative to a full-scale sine. */
export interface PartedLevels {
  /** From 44.7 Hz to the edge; null where no partial lies there. */
  readonly lowLevelDb: number | null;
  /** From the edge to 2818.4 Hz. */
  readonly restLevelDb: number | null;
}

/**
 * Levels of a string's partials below and above the edge. Strings of one take set side by side by these show whether a low
 * drone brings low register or only more of the middle.
 *
 * @param lowEdgeHz - where the low register ends
 */
export function partedLevels(
  partials: readonly PartialEnergy[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
): PartedLevels {
  const level = (fromHz: number, toHz: number) => {
    const power = partials.reduce(
      (sum, one) => (one.frequencyHz >= fromHz && one.frequencyHz < toHz ? sum + one.power : sum),
      0,
    );
    return power > 0 ? powerToDb(power) : null;
  };
  return {
    lowLevelDb: level(LOWEST_EDGE_HZ, lowEdgeHz),
    restLevelDb: level(lowEdgeHz, HIGHEST_EDGE_HZ),
  };
}
