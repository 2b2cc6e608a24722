import type { Instrument } from "../instrument/Instrument.js";
import { stringTargets } from "../instrument/stringTargets.js";
import { otherInstrument } from "./otherInstrument.js";
import { readStringing } from "./readStringing.js";
import type { StringingReading } from "./StringingReading.js";

/** What is asked about an instrument's strings. */
export interface StringingChoice {
  readonly instrument: Instrument;
  /** Another instrument, set beside it; without one, the same on another scale or tuned otherwise, where either is given. */
  readonly against: Instrument | null;
  /** Length of the longest melody string there. */
  readonly otherLengthMm: number | null;
  /** Other notes there, by the names of their strings. */
  readonly retune: ReadonlyMap<string, string>;
  /** How heavy would each string be at this tension? */
  readonly tensionNewton: number | null;
  /** Null where the instrument says. */
  readonly a4Hz: number | null;
  readonly tonic: string | null;
}

/**
 * The strings of an instrument, and beside them those of another one, or the same ones on another scale or at other notes.
 *
 * @throws AnalysisError for a pitch, a string, a note or a length that won't do
 */
export function strungBeside(choice: StringingChoice): StringingReading {
  const { instrument, against, otherLengthMm, retune, tensionNewton } = choice;
  const options = { a4Hz: choice.a4Hz ?? undefined, tonic: choice.tonic ?? undefined };
  const strung = (one: Instrument) => ({ instrument: one, targets: stringTargets(one, options) });
  const isChanged = otherLengthMm !== null || retune.size > 0;
  const other =
    against ?? (isChanged ? otherInstrument(instrument, { lengthMm: otherLengthMm, notes: retune }) : null);
  return readStringing(strung(instrument), tensionNewton, other === null ? null : strung(other));
}
