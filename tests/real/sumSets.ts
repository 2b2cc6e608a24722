import { cents } from "../../src/units/cents.js";
import type { NoteCut } from "./noteCut.js";
import { type SumOfNotes, sumOfNotes } from "./sumOfNotes.js";

const PAIR_LEVELS_DB = [-6, 0, 6];
/** Notes of one nominal pitch are two strings on one target, another case. */
const SAME_NOTE_CENTS = 60;
/** In turn over the triples. */
const TRIPLE_LEVELS_DB: readonly (readonly number[])[] = [
  [0, 0, 0],
  [0, 6, -6],
  [-6, 0, 6],
  [6, -6, 0],
];

/** Every pair of notes that differ in nominal pitch, the second 6 dB softer, as loud, and 6 dB louder. */
export function pairSums(notes: readonly NoteCut[]): SumOfNotes[] {
  return groupsOf(notes, 2).flatMap((pair) =>
    PAIR_LEVELS_DB.map((levelDb) => sumOfNotes(pair, [0, levelDb])),
  );
}

/** Every three notes that differ in nominal pitch. */
export function tripleSums(notes: readonly NoteCut[]): SumOfNotes[] {
  return groupsOf(notes, 3).map((triple, i) =>
    sumOfNotes(triple, TRIPLE_LEVELS_DB[i % TRIPLE_LEVELS_DB.length]),
  );
}

/** All groups of so many notes, none of which have the same nominal pitch. */
function groupsOf(notes: readonly NoteCut[], size: number): NoteCut[][] {
  if (size === 0) return [[]];
  return notes.flatMap((note, i) =>
    groupsOf(notes.slice(i + 1), size - 1)
      .filter((group) =>
        group.every((other) => Math.abs(cents(other.nominalHz, note.nominalHz)) > SAME_NOTE_CENTS),
      )
      .map((group) => [note, ...group]),
  );
}
