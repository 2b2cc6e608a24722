import type { Instrument, StringTarget } from "../instrument/Instrument.js";
import { parseNoteName } from "../units/parseNoteName.js";
import { parsePitchClass } from "../units/parsePitchClass.js";
import type { KeyboardOptions } from "./KeyboardReading.js";
import { keyLadder } from "./keyLadder.js";

/** Keys that are looked for where the instrument does not say how many there are. */
const USUAL_KEYS = 24;

/** What a scale is read with. */
export interface ScaleChoice {
  readonly instrument: Instrument | null;
  /** All strings of the instrument. */
  readonly targets: readonly StringTarget[];
  readonly settings: {
    readonly tonic: string | null;
    /** Semitones by which strings are raised, by their names. */
    readonly capo: Readonly<Record<string, number>>;
  };
  /** Vibrating length, nut to bridge; wins over the instrument's, which is that of the open string. */
  readonly lengthMm: number | null;
}

/**
 * How the scale of one string is to be read: its keys by the instrument's temperament over the tonic, the drones that may sound along, the
 * other strings that it might be instead.
 *
 * @param target - the string that is played, one of the targets
 * @returns the options, and the open string's note as a MIDI number
 */
export function scaleOptions(
  target: StringTarget,
  { instrument, targets, settings, lengthMm }: ScaleChoice,
): { readonly options: KeyboardOptions; readonly openMidi: number } {
  const string = instrument?.strings.find(({ name }) => name === target.name);
  const openMidi = parseNoteName(target.note).midi;
  const tonicDegree = settings.tonic === null ? openMidi : parsePitchClass(settings.tonic).semitonesOverC;
  // Without a tonic there is nothing to build another temperament on, and targets are equal-tempered.
  const temperament = settings.tonic === null ? "equal" : (instrument?.temperament ?? "equal");
  const raisedBy = settings.capo[target.name] ?? 0;
  const fileLengthMm = string?.lengthMm ?? null;
  const named = ({ name, targetHz }: StringTarget) => ({ name, frequencyHz: targetHz });
  const options = {
    string: target.name,
    openTargetHz: target.targetHz,
    ladderCents: keyLadder(temperament, openMidi - tonicDegree, string?.keys ?? USUAL_KEYS),
    lengthMm: lengthMm ?? (fileLengthMm === null ? null : fileLengthMm * 2 ** (-raisedBy / 12)),
    drones: targets.filter(({ role }) => role === "drone" || role === "trompette").map(named),
    otherStrings: targets.filter((one) => one.role === "melody" && one !== target).map(named),
  };
  return { options, openMidi };
}
