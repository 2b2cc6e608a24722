import type { Temperament } from "../units/temperament.js";

/** The roles a string can have, by the names used in instrument files. */
export const stringRoles = ["melody", "drone", "trompette", "sympathetic"] as const;

/** What a string is for. Only melody strings have keys; sympathetic strings are plucked, not bowed. */
export type StringRole = (typeof stringRoles)[number];

/** One string of an instrument, as the instrument file gives it (after its schema was checked). */
export interface InstrumentString {
  /** Unique; made from the note where the file gives none (`G4`, a second one `G4 2`). */
  readonly name: string;
  readonly role: StringRole;
  /** Note name in scientific pitch notation, tidied but not respelled; null where only a frequency is given. */
  readonly note: string | null;
  /** Open frequency in hertz; wins over the note. */
  readonly frequencyHz: number | null;
  /** Wanted deviation from the target in cents. */
  readonly offsetCents: number;
  /** Vibrating length nut to bridge in millimetres. */
  readonly lengthMm: number | null;
  readonly keys: number | null;
  /** Semitones that the string can be raised by. */
  readonly capo: readonly number[];
  readonly linearDensityGramsPerMetre: number | null;
  readonly massGrams: number | null;
  readonly cutLengthMm: number | null;
  readonly diameterMm: number | null;
  readonly material: string | null;
}

/** An instrument and the tuning it is meant to have. */
export interface Instrument {
  readonly name: string;
  /** Reference pitch of A4 in hertz. */
  readonly a4Hz: number;
  readonly temperament: Temperament;
  /** Note letter with accidental, without octave (`G`, `Bb`); null where none was chosen. */
  readonly tonic: string | null;
  /** `pure`: drones at pure ratios to the tonic, if there is one; `tempered`: they follow the temperament. */
  readonly drones: "pure" | "tempered";
  readonly strings: readonly InstrumentString[];
}

/** The pitch that one string should have. */
export interface StringTarget {
  readonly name: string;
  readonly role: StringRole;
  /** Note name, capo included: the string's own note, or the nearest one where only a frequency is given. */
  readonly note: string;
  readonly targetHz: number;
}
