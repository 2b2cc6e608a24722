/** The spellings most used for each key of the keyboard; one spelling a note, so that readings can be compared. */
const spellings = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

/**
 * The name of the note nearest to a MIDI note number (which may be fractional), in scientific pitch notation.
 *
 * Names run on beyond the octaves -1 to 9 that `parseNoteName` reads.
 *
 * @example
 * ```ts
 * noteNameOfMidi(70); // "Bb4"
 * ```
 */
export function noteNameOfMidi(midi: number): string {
  const nearest = Math.round(midi);
  const octave = Math.floor(nearest / 12);
  return `${spellings[nearest - 12 * octave]}${octave - 1}`;
}
