import * as z from "zod";
import { parseNoteName } from "../units/parseNoteName.js";
import { parsePitchClass } from "../units/parsePitchClass.js";
import { temperaments } from "../units/temperament.js";
import { stringRoles } from "./Instrument.js";
import { instrumentRanges as ranges } from "./instrumentRanges.js";

type Range = readonly [number, number];

// Every check of a field carries the same phrase, so that any way of missing it says what is wanted.

function numberIn([minimum, maximum]: Range, unit: string) {
  const wanted = `must be a number from ${minimum} to ${maximum} (${unit})`;
  return z.number(wanted).min(minimum, wanted).max(maximum, wanted);
}

function wholeNumberIn([minimum, maximum]: Range, unit: string) {
  const wanted = `must be a whole number from ${minimum} to ${maximum} (${unit})`;
  return z.number(wanted).int(wanted).min(minimum, wanted).max(maximum, wanted);
}

function oneOf<const T extends readonly string[]>(values: T) {
  return z.enum(values, `must be one of ${values.join(", ")}`);
}

/** Control characters, half surrogate pairs, line separators and marks that turn the reading direction. */
const unprintable = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/u;

function label(maximumLength: number) {
  const wanted = `must be text of 1 to ${maximumLength} characters without control characters`;
  return z
    .string(wanted)
    .transform((text) => text.trim().normalize("NFC"))
    .refine((text) => text.length > 0 && text.length <= maximumLength && !unprintable.test(text), wanted);
}

/** A text that `read` accepts, replaced by its tidy spelling. */
function spelledBy(read: (text: string) => { name: string }, wanted: string) {
  return z.string(wanted).transform((text, context) => {
    try {
      return read(text).name;
    } catch {
      context.addIssue({ code: "custom", message: wanted });
      return z.NEVER;
    }
  });
}

const noteName = spelledBy(
  parseNoteName,
  "must be a note name with its octave such as G4, F#3 or Bb2 (the German H is written B)",
);

const tonic = spelledBy(
  parsePitchClass,
  "must be a note without octave such as G, F# or Bb (the German H is written B)",
);

const capo = z
  .array(wholeNumberIn(ranges.capoSemitones, "semitones"), "must be a list of semitones such as [2]")
  .max(24, "must be a list of at most 24 semitones");

const stringSchema = z.strictObject(
  {
    name: label(60).optional(),
    role: oneOf(stringRoles),
    note: noteName.optional(),
    frequencyHz: numberIn(ranges.frequencyHz, "Hz").optional(),
    offsetCents: numberIn(ranges.offsetCents, "cents").optional(),
    lengthMm: numberIn(ranges.lengthMm, "mm").optional(),
    keys: wholeNumberIn(ranges.keys, "keys").optional(),
    capo: capo.optional(),
    linearDensityGramsPerMetre: numberIn(ranges.linearDensityGramsPerMetre, "g/m").optional(),
    massGrams: numberIn(ranges.massGrams, "g").optional(),
    cutLengthMm: numberIn(ranges.cutLengthMm, "mm").optional(),
    diameterMm: numberIn(ranges.diameterMm, "mm").optional(),
    material: label(60).optional(),
  },
  "must hold the entries of one string (role, note, ...)",
);

/** The instrument file as it is written; every message is the phrase that goes into the error's `problem`. */
export const instrumentSchema = z.strictObject(
  {
    name: label(120).optional(),
    a4Hz: numberIn(ranges.a4Hz, "Hz").optional(),
    temperament: oneOf(temperaments).optional(),
    tonic: tonic.optional(),
    drones: oneOf(["pure", "tempered"]).optional(),
    strings: z
      .array(stringSchema, "must be a list of strings")
      .min(1, "must list at least one string")
      .max(32, "must list at most 32 strings"),
  },
  "must hold the entries of one instrument (name, strings, ...)",
);

/** An instrument file that follows the schema. */
export type InstrumentFile = z.infer<typeof instrumentSchema>;

/** The keys that may stand at a place of the file, for the hint beside an unknown one. */
export function knownKeysAt(path: readonly PropertyKey[]): readonly string[] {
  return Object.keys(path.length === 0 ? instrumentSchema.shape : stringSchema.shape);
}
