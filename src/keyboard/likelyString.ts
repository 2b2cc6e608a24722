import { cents } from "../units/cents.js";
import { assignKeys } from "./assignKeys.js";
import type { NoteSpan } from "./cutNotes.js";
import type { NamedPitch } from "./KeyboardReading.js";

/** A string that the notes of a scale fit better than the one they were said to be played on. */
export interface LikelyString {
  readonly name: string;
  /** True where notes lie below the open string that was named: it can't have been that one. */
  readonly isCertain: boolean;
}

/** In a scale on the string that was named, hardly any time is without a pitch that it may have. */
const USUAL_VOICED_SHARE = 0.9;
/** Strings nearer to each other than this are one note, and can't be told apart by their keys. */
const ONE_NOTE_CENTS = 60;
/** So many notes more must be keys of another string. */
const MORE_NOTES = 2;
/** On the wrong string, and without its open one, the notes may be placed one key out. */
const ONE_KEY_OUT_CENTS = 160;
/** From this key on, a scale without its lowest keys may well be all keys of a higher string. */
const LOWEST_KEY = 3;

/**
 * Looks whether the notes are rather the keys of another string: one to which more of them belong, since they go below the
 * open string that was named, or one whose open string is where they begin, while the named one would lack its first keys.
 *
 * @param listen - the notes that are heard where a string of an open pitch is listened for
 * @param keys - of the notes on the string that was named
 * @param voicedShare - of the time, how much has a pitch that this string may have
 */
export function likelyString(
  listen: (openHz: number) => readonly NoteSpan[],
  keys: readonly (number | null)[],
  voicedShare: number,
  ladderCents: readonly number[],
  openTargetHz: number,
  others: readonly NamedPitch[],
): LikelyString | null {
  const placed = placedOf(keys);
  const lowest = Math.min(...placed);
  if (lowest === 0 && placed.length === keys.length && voicedShare > USUAL_VOICED_SHARE) return null;
  let best: (LikelyString & { readonly score: number }) | null = null;
  for (const { name, frequencyHz } of others) {
    const aboveCents = cents(frequencyHz, openTargetHz);
    if (Math.abs(aboveCents) < ONE_NOTE_CENTS) continue;
    const notes = listen(frequencyHz);
    const { keys: theirs } = assignKeys(
      notes.map(({ centsOverOpen }) => centsOverOpen),
      ladderCents,
    );
    const found = placedOf(theirs).filter((key) => key < ladderCents.length);
    const first = Math.min(...found);
    const isCertain = aboveCents < 0 && found.length >= placed.length + MORE_NOTES;
    const isLikely =
      lowest >= LOWEST_KEY &&
      first <= 1 &&
      ladderCents[lowest] > aboveCents - ONE_KEY_OUT_CENTS &&
      found.length >= placed.length - 1;
    if (!isCertain && !isLikely) continue;
    // Of two strings that have all the notes, the one that lacks fewer of its lowest keys.
    const score = found.length - first / ladderCents.length;
    if (score > (best?.score ?? 0)) best = { name, isCertain, score };
  }
  return best === null ? null : { name: best.name, isCertain: best.isCertain };
}

function placedOf(keys: readonly (number | null)[]): number[] {
  return keys.flatMap((key) => key ?? []);
}
