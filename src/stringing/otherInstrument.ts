import { AnalysisError } from "../errors.js";
import type { Instrument } from "../instrument/Instrument.js";
import { instrumentRanges } from "../instrument/instrumentRanges.js";
import { parseNoteName } from "../units/parseNoteName.js";

/** What is to be changed of an instrument. */
export interface InstrumentChange {
  /** New vibrating length of the longest melody string (of any string, where there is no melody string); null leaves it. */
  readonly lengthMm: number | null;
  /** New notes, by the names of their strings. */
  readonly notes: ReadonlyMap<string, string>;
}

/**
 * The same instrument on another scale, or tuned otherwise. All lengths change in one proportion, as they do where a maker
 * draws the same instrument longer.
 *
 * @throws AnalysisError `string-unknown` for a string that is not there, `note-name-invalid`, `length-unknown` where no length is
 * known to start from, `value-out-of-range` where a string would get too short or too long
 */
export function otherInstrument(instrument: Instrument, { lengthMm, notes }: InstrumentChange): Instrument {
  for (const name of notes.keys()) {
    if (!instrument.strings.some((string) => string.name === name)) {
      const known = instrument.strings.map((string) => string.name).join(", ");
      throw new AnalysisError("string-unknown", { option: "retune", given: name, known });
    }
  }
  const factor = lengthMm === null ? 1 : lengthMm / longestMm(instrument);
  const [allowedMinimum, allowedMaximum] = instrumentRanges.lengthMm;
  return {
    ...instrument,
    strings: instrument.strings.map((string) => {
      const note = notes.get(string.name);
      const given = string.lengthMm === null ? null : string.lengthMm * factor;
      if (given !== null && !(given >= allowedMinimum && given <= allowedMaximum)) {
        throw new AnalysisError("value-out-of-range", {
          name: "lengthMm",
          given: Math.round(given),
          allowedMinimum,
          allowedMaximum,
        });
      }
      return {
        ...string,
        lengthMm: given,
        ...(note !== undefined && { note: parseNoteName(note).name, frequencyHz: null, offsetCents: 0 }),
      };
    }),
  };
}

function longestMm({ strings }: Instrument): number {
  const lengths = (melody: boolean) =>
    strings.flatMap(({ role, lengthMm }) =>
      lengthMm !== null && (!melody || role === "melody") ? [lengthMm] : [],
    );
  const known = lengths(true).length > 0 ? lengths(true) : lengths(false);
  if (known.length === 0) throw new AnalysisError("length-unknown", {});
  return Math.max(...known);
}
