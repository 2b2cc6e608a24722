import type { JointFit } from "../partials/joint/JointFit.js";
import { isOneNote } from "../units/isOneNote.js";
import { nearMultiple } from "./nearMultiple.js";

/**
 * Beats, bowing and a swing of 3 dB with the wheel leave a string more even than this over 0.6 s (our policy). One
 * that has no partials of its own is told by little else, and takes its neighbours' strength where it does not sound.
 */
const LEAST_EVEN = 0.4;
const LEAST_EVEN_ON_SHARED = 0.65;
/** Explaining less than this of what the others leave there, it is none. */
const LEAST_EXPLAINED_ON_SHARED = 0.75;

/**
 * True for a string that sounds in part of a passage only, or may: its pitch there is that of other sound. So may one whose
 * partials are all those of such a string.
 */
export function isPartly(fit: JointFit, fits: readonly JointFit[]): boolean {
  // Two strings of one note share all they have: how strong each is at a moment is not known so well.
  if (fits.some((other) => other !== fit && isOneNote(other.frequencyHz, fit.frequencyHz))) return false;
  if (fit.evenness < (fit.hasOwnPartials ? LEAST_EVEN : LEAST_EVEN_ON_SHARED)) return true;
  return (
    !fit.hasOwnPartials &&
    (fit.explainedShare < LEAST_EXPLAINED_ON_SHARED ||
      fits.some(
        (other) =>
          other.evenness < LEAST_EVEN_ON_SHARED &&
          (nearMultiple(fit.frequencyHz, other.frequencyHz) ?? 0) > 1,
      ))
  );
}
