import type { SumOfNotes } from "./sumOfNotes.js";

/** Partials above this don't count as shared. */
const TOP_HZ = 2900;
/** Two series meet where partials lie closer than this share of their frequency: about 50 cents. */
const NEAR_SHARE = 0.03;

/**
 * The cycles that a note all of whose partials fall on another one's (octave, twelfth, double octave above it) goes through
 * against it at the highest partial: l d T. Below 1.5 no method parts the two. Infinity where every note has partials of its
 * own.
 */
export function leastCycles({ truthsHz, startSeconds, endSeconds }: SumOfNotes): number {
  const cycles = truthsHz.flatMap((lowHz) =>
    truthsHz
      .filter((highHz) => highHz > lowHz)
      .map((highHz) => {
        const apartHz = Math.abs(Math.round(highHz / lowHz) * lowHz - highHz);
        if (apartHz > NEAR_SHARE * highHz) return Number.POSITIVE_INFINITY;
        return Math.floor(TOP_HZ / highHz) * apartHz * (endSeconds - startSeconds);
      }),
  );
  return Math.min(...cycles);
}
