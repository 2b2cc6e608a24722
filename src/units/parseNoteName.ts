import { AnalysisError } from "../errors.js";
import { type PitchClass, parsePitchClass } from "./parsePitchClass.js";

/** A note name that was read. */
export interface NoteName {
  /** Tidy spelling as given, not respelled: `f♯3` becomes `F#3`, `A#3` stays `A#3`. */
  readonly name: string;
  /** MIDI note number, 0 (C-1) to 131 (B9); A4 is 69. */
  readonly midi: number;
}

/**
 * Reads a note name in scientific pitch notation: `C2`, `F#3`, `Bb1`, `B♭1`, `g4`, octaves -1 to 9.
 *
 * Octave numbers change at C and belong to the letter: B#3 sounds as C4, Cb4 as B3. `b` after the letter is
 * always a flat. The German H is refused. Spaces around the name are ignored.
 *
 * @throws AnalysisError `note-name-invalid`
 *
 * @example
 * ```ts
 * parseNoteName("G4"); // { name: "G4", midi: 67 }
 * ```
 */
export function parseNoteName(text: string): NoteName {
  const match = /^(\S{1,2}?)(-1|[0-9])$/u.exec(text.trim());
  if (!match) throw new AnalysisError("note-name-invalid", { given: text });
  const octave = Number(match[2]);
  const pitch = readPitch(match[1] ?? "", text);
  const midi = 12 * (octave + 1) + pitch.semitonesOverC;
  // Cb-1 and B#9 fall off the ends.
  if (midi < 0 || midi > 131) throw new AnalysisError("note-name-invalid", { given: text });
  return { name: `${pitch.name}${octave}`, midi };
}

/** The error has to quote the whole name, not the part before the octave. */
function readPitch(part: string, whole: string): PitchClass {
  try {
    return parsePitchClass(part);
  } catch {
    throw new AnalysisError("note-name-invalid", { given: whole });
  }
}
