import { isHeard } from "../strings/isHeard.js";
import type { PartialPower } from "../strings/MeasuredPassage.js";
import { powerToDb } from "../units/decibels.js";

/** Level of the partials that stand out of the noise; null where some of them could not be split from another string's. */
export function levelOf(partials: readonly PartialPower[]): number | null {
  const total = partials.filter(isHeard).reduce((sum, { power }) => sum + power, 0);
  return total > 0 && partials.every(({ shared }) => !shared) ? powerToDb(total) : null;
}
