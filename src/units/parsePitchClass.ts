import { AnalysisError } from "../errors.js";

/** A note without its octave. */
export interface PitchClass {
  /** Tidy spelling: capital letter, `#` or `b` (`F#`, `Bb`). */
  readonly name: string;
  /** -1 (Cb) to 12 (B#): not folded, because an octave number belongs to the letter (B#3 sounds as C4). */
  readonly semitonesOverC: number;
}

const letterSemitones: ReadonlyMap<string, number> = new Map([
  ["C", 0],
  ["D", 2],
  ["E", 4],
  ["F", 5],
  ["G", 7],
  ["A", 9],
  ["B", 11],
]);

/**
 * Reads a note letter with an optional accidental and no octave, such as a tonic: `G`, `f#`, `B♭`.
 *
 * The letter may be small; the German H is refused, because its B would then be read a semitone off.
 *
 * @throws AnalysisError `note-name-invalid`
 */
export function parsePitchClass(text: string): PitchClass {
  const match = /^([A-Ga-g])([#♯b♭]?)$/u.exec(text.trim());
  const letter = match?.[1]?.toUpperCase() ?? "";
  const semitones = letterSemitones.get(letter);
  if (semitones === undefined) throw new AnalysisError("note-name-invalid", { given: text });
  switch (match?.[2]) {
    case "#":
    case "♯":
      return { name: `${letter}#`, semitonesOverC: semitones + 1 };
    case "b":
    case "♭":
      return { name: `${letter}b`, semitonesOverC: semitones - 1 };
    default:
      return { name: letter, semitonesOverC: semitones };
  }
}
