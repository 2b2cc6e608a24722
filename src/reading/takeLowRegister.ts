import { LOW_REGISTER_EDGE_HZ, thirdOctaveBands } from "../body/bandEdges.js";
import { bandLevelDb, lowRegister } from "../body/lowRegister.js";
import type { SoundReading, TakeLowRegister } from "./TakeReading.js";

/**
 * Low register of a whole take: every string, or set of strings that sounded together, counts with its mean power, not
 * with how long it was played.
 *
 * @param lowEdgeHz - where the low register ends
 * @returns null where nothing was read
 */
export function takeLowRegister(
  sounds: readonly SoundReading[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
): TakeLowRegister | null {
  const partials = sounds.flatMap((sound) => sound.partials);
  if (partials.length === 0) return null;
  return {
    ...lowRegister(partials, lowEdgeHz),
    thirdOctaveDb: thirdOctaveBands.map((band) => ({
      midbandHz: band.midbandHz,
      levelDb: bandLevelDb(partials, band),
    })),
  };
}
