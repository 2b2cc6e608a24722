import { shiftByCents } from "../units/cents.js";
import { midiToFrequencyHz } from "../units/midiFrequency.js";
import { centsOverTonic, type Temperament } from "../units/temperament.js";

/** What decides where a note lies. */
export interface NotePlacement {
  /** Reference pitch of A4 in hertz. */
  readonly a4Hz: number;
  /** 0 (C) to 11 (B); null leaves all notes in equal temperament. */
  readonly tonicPitchClass: number | null;
  readonly temperament: Temperament;
}

/**
 * The frequency of a note in a temperament.
 *
 * The tonic stands where equal temperament puts it, in every octave; the other notes lie over it as the
 * temperament says. Without a tonic nothing tells where an unequal temperament begins, so all notes are
 * equal-tempered.
 */
export function noteTargetHz(midi: number, { a4Hz, tonicPitchClass, temperament }: NotePlacement): number {
  if (tonicPitchClass === null) return midiToFrequencyHz(midi, a4Hz);
  const degree = (((midi - tonicPitchClass) % 12) + 12) % 12;
  return shiftByCents(midiToFrequencyHz(midi - degree, a4Hz), centsOverTonic(temperament, degree));
}
