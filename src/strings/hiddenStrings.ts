import type { StringTarget } from "../instrument/Instrument.js";
import type { JointFit } from "../partials/joint/JointFit.js";
import { LEAST_CYCLES } from "../partials/joint/leastCycles.js";
import { cents } from "../units/cents.js";
import type { HiddenString } from "./MixedStrings.js";
import { nearMultiple } from "./nearMultiple.js";
import { UNFOLLOWED_FACTOR } from "./neededSeconds.js";

/** Partials whose place tells whether a string can hide under others. */
const HIDING_NUMBERS = [1, 2, 3, 4, 5];

/**
 * Strings that were named, were not found, and may lie hidden under those that were: all their lower partials fall on
 * partials of others. Had such a string sounded further from them than `withinCents`, it would have been found.
 *
 * @param named - indices of the targets that were named
 * @param found - indices of those that were found, in the order of `fits`
 */
export function hiddenStrings(
  named: readonly number[],
  found: readonly number[],
  fits: readonly JointFit[],
  targets: readonly StringTarget[],
  seconds: number,
): HiddenString[] {
  return named.flatMap((targetIndex): HiddenString[] => {
    const { targetHz } = targets[targetIndex];
    if (
      found.includes(targetIndex) ||
      !HIDING_NUMBERS.every((n) => coveringFit(n * targetHz, fits) !== null)
    ) {
      return [];
    }
    const over = coveringFit(targetHz, fits)!;
    const ratio = Math.round(targetHz / fits[over].frequencyHz);
    const meetings = Math.max(1, Math.floor(fits[over].partials.length / ratio));
    const withinHz = LEAST_CYCLES / (meetings * seconds);
    return [
      {
        targetIndex,
        neededSeconds: UNFOLLOWED_FACTOR * seconds,
        under: { targetIndex: found[over], ratio, withinCents: cents(targetHz + withinHz, targetHz) },
      },
    ];
  });
}

/** The fit that has a partial at a frequency, as near as two strings may be mistuned; null where none has. */
function coveringFit(frequencyHz: number, fits: readonly JointFit[]): number | null {
  const index = fits.findIndex((fit) => nearMultiple(frequencyHz, fit.frequencyHz) !== null);
  return index < 0 ? null : index;
}
