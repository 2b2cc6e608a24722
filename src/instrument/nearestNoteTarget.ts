import { AnalysisError } from "../errors.js";
import { frequencyHzToMidi, midiToFrequencyHz } from "../units/midiFrequency.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";

/**
 * The equal-tempered note nearest to a frequency: the target of a take for which no instrument was named.
 *
 * @param frequencyHz - above 0
 * @param a4Hz - reference pitch of A4 in hertz
 * @throws AnalysisError `value-out-of-range` for a frequency that is not a finite number above 0
 */
export function nearestNoteTarget(frequencyHz: number, a4Hz: number): { note: string; targetHz: number } {
  if (!(frequencyHz > 0 && frequencyHz < Number.POSITIVE_INFINITY)) {
    throw new AnalysisError("value-out-of-range", {
      name: "frequencyHz",
      given: frequencyHz,
      allowedMinimum: Number.MIN_VALUE,
      allowedMaximum: Number.MAX_VALUE,
    });
  }
  const midi = Math.round(frequencyHzToMidi(frequencyHz, a4Hz));
  return { note: noteNameOfMidi(midi), targetHz: midiToFrequencyHz(midi, a4Hz) };
}
