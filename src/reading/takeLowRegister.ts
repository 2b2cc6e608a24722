import { thirdOctaveBands } from "../body/bandEdges.js";
import { bandLevelDb, lowRegister, type PartialEnergy } from "../body/lowRegister.js";
import type { StringReading } from "../strings/StringReading.js";
import type { TakeLowRegister } from "./TakeReading.js";

/**
 * Low register of a whole take: every string counts with its mean power, not with how long it was played.
 *
 * @returns null where no string was measured, or where one that was has no level because its partials fall on those of
 * another: the rest alone would be the register of another set of strings
 */
export function takeLowRegister(strings: readonly StringReading[]): TakeLowRegister | null {
  const isWhole = strings.every(
    ({ status, partials }) => status !== "measured" || partials.every(({ shared }) => !shared),
  );
  if (!isWhole) return null;
  const partials = strings.flatMap(energies);
  if (partials.length === 0) return null;
  const register = lowRegister(partials);
  const bands = thirdOctaveBands.map((band) => ({
    midbandHz: band.midbandHz,
    levelDb: bandLevelDb(partials, band),
  }));
  return { ...register, thirdOctaveDb: bands };
}

function energies({ levelDb, partials }: StringReading): PartialEnergy[] {
  if (levelDb === null) return [];
  return partials.flatMap((partial) =>
    partial.levelDb === null
      ? []
      : [{ frequencyHz: partial.frequencyHz, power: 10 ** ((levelDb + partial.levelDb) / 10) }],
  );
}
