import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";
import type { KeyNote } from "./hearNotes.js";
import type { NamedPitch } from "./KeyboardReading.js";

/** Something that goes along with the keys. */
export interface StringAlong {
  /** The string whose partials were found beside the notes'; null where only beats tell. */
  readonly name: string | null;
  /** Of the notes, how many show it. */
  readonly share: number;
}

const LEAST_NOTES = 4;
/** A line beside a note's partials that is weaker belongs to the room, or to what is left of a drone. */
const LEAST_LINE_DB = -25;
/** Keys of two strings differ by so much. */
const WITHIN_CENTS = 70;
const LEAST_SHARE = 0.5;
const HIGHEST_MULTIPLE = 7;
/**
 * Partials of a string by itself keep most of their strength and phase along what they have in common: of real bowed notes that
 * are steady 0.74 to 0.99; where another string of its note, or an octave up, sounds 3 dB softer, 0.5 to 0.66 on the median.
 */
const LEAST_HELD = 0.72;

/**
 * Looks for a second melody string that the same keys stop: lines beside the partials of most notes that go up with the
 * keys, or, for a string of the same note or an octave above, partials that beat.
 *
 * @param openHz - of the string that is read
 * @param others - the other melody strings with their open pitch
 */
export function otherString(
  notes: readonly KeyNote[],
  openHz: number,
  others: readonly NamedPitch[],
): StringAlong | null {
  if (notes.length < LEAST_NOTES) return null;
  let best: StringAlong | null = null;
  for (const { name, frequencyHz } of others) {
    const ratio = frequencyHz / openHz;
    const shown = notes.filter(({ note: { otherLine, frequencyHz: noteHz } }) => {
      if (otherLine === null || otherLine.levelDb < LEAST_LINE_DB) return false;
      const multiple = Math.max(1, Math.round(otherLine.frequencyHz / (noteHz * ratio)));
      const away = cents(otherLine.frequencyHz, multiple * noteHz * ratio);
      return multiple <= HIGHEST_MULTIPLE && Math.abs(away) < WITHIN_CENTS;
    });
    const share = shown.length / notes.length;
    if (share >= LEAST_SHARE && share > (best?.share ?? 0)) best = { name, share };
  }
  if (best !== null) return best;
  const held = notes.flatMap(({ note }) => note.holdsTogether ?? []);
  if (held.length < LEAST_NOTES || median(Float64Array.from(held)) >= LEAST_HELD) return null;
  return { name: null, share: held.filter((value) => value < LEAST_HELD).length / held.length };
}
