import { AnalysisError } from "../errors.js";
import { shiftByCents } from "../units/cents.js";
import { frequencyHzToMidi } from "../units/midiFrequency.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";
import { parseNoteName } from "../units/parseNoteName.js";
import { parsePitchClass } from "../units/parsePitchClass.js";
import type { Temperament } from "../units/temperament.js";
import type { Instrument, InstrumentString, StringRole, StringTarget } from "./Instrument.js";
import { instrumentRanges } from "./instrumentRanges.js";
import { type NotePlacement, noteTargetHz } from "./noteTargetHz.js";

/** What the call decides over the instrument. */
export interface TargetOptions {
  /** Reference pitch of A4, 300 to 600 Hz; wins over the instrument's. */
  readonly a4Hz?: number | undefined;
  /** Note letter with accidental, without octave; wins over the instrument's tonic. */
  readonly tonic?: string | undefined;
  /** Semitones by which a string is raised, by its name; 0 is the open string. */
  readonly capo?: ReadonlyMap<string, number> | undefined;
}

/**
 * The pitch that every string should have, in the order of the instrument.
 *
 * - Without a tonic all notes are equal-tempered.
 * - With a tonic, it stands where equal temperament puts it. Melody and sympathetic strings follow the
 *   instrument's temperament over it (sympathetic strings answer the melody's notes, so they go with it).
 *   Drones and the trompette are at pure (just) ratios to the tonic, or with `drones: tempered` follow the
 *   temperament too.
 * - A string with a frequency of its own keeps it: neither A4 nor the tonic moves it.
 * - A capo makes the string the note that many semitones higher, placed by the rules above; a string with a
 *   frequency of its own is raised by 2^(n/12).
 * - `offsetCents` comes last.
 *
 * @throws AnalysisError `value-out-of-range` (A4), `note-name-invalid` (tonic), `string-unknown` and
 * `capo-not-available` (capo)
 *
 * @example
 * ```ts
 * stringTargets(findTuning("alto"), { tonic: "C" })[1]; // G2, a pure fifth over C2: 98.1096 Hz
 * ```
 */
export function stringTargets(instrument: Instrument, options: TargetOptions = {}): StringTarget[] {
  const a4Hz = options.a4Hz ?? instrument.a4Hz;
  const [lowestHz, highestHz] = instrumentRanges.a4Hz;
  if (!(a4Hz >= lowestHz && a4Hz <= highestHz)) {
    throw new AnalysisError("value-out-of-range", {
      name: "a4Hz",
      given: a4Hz,
      allowedMinimum: lowestHz,
      allowedMaximum: highestHz,
    });
  }
  const tonic = options.tonic ?? instrument.tonic;
  const tonicPitchClass = tonic === null ? null : (parsePitchClass(tonic).semitonesOverC + 12) % 12;
  const capo = checkedCapo(instrument, options.capo ?? new Map());

  return instrument.strings.map((string) => {
    const raisedBy = capo.get(string.name) ?? 0;
    const placement = { a4Hz, tonicPitchClass, temperament: temperamentFor(string.role, instrument) };
    const { note, placedHz } = place(string, raisedBy, placement);
    return {
      name: string.name,
      role: string.role,
      note,
      targetHz: shiftByCents(placedHz, string.offsetCents),
    };
  });
}

function place(string: InstrumentString, raisedBy: number, placement: NotePlacement) {
  const ownHz = string.frequencyHz === null ? null : string.frequencyHz * 2 ** (raisedBy / 12);
  if (string.note === null && ownHz !== null) {
    return { note: noteNameOfMidi(frequencyHzToMidi(ownHz, placement.a4Hz)), placedHz: ownHz };
  }
  const openNote = parseNoteName(string.note ?? "");
  const midi = openNote.midi + raisedBy;
  const note = raisedBy === 0 ? openNote.name : noteNameOfMidi(midi);
  return { note, placedHz: ownHz ?? noteTargetHz(midi, placement) };
}

function temperamentFor(role: StringRole, instrument: Instrument): Temperament {
  const isDrone = role === "drone" || role === "trompette";
  return isDrone && instrument.drones === "pure" ? "just" : instrument.temperament;
}

/** Names are compared in one Unicode form: a terminal may compose accents differently from the file. */
function checkedCapo(instrument: Instrument, capo: ReadonlyMap<string, number>): Map<string, number> {
  const byName = new Map<string, InstrumentString>(
    instrument.strings.map((string) => [string.name.normalize("NFC"), string]),
  );
  const checked = new Map<string, number>();
  for (const [name, semitones] of capo) {
    const string = byName.get(name.normalize("NFC"));
    if (!string) {
      const known = instrument.strings.map((each) => each.name).join(", ");
      throw new AnalysisError("string-unknown", { option: "capo", given: name, known });
    }
    if (semitones !== 0 && !string.capo.includes(semitones)) {
      const available = string.capo.length === 0 ? "none" : string.capo.join(", ");
      throw new AnalysisError("capo-not-available", { string: string.name, given: semitones, available });
    }
    checked.set(string.name, semitones);
  }
  return checked;
}
