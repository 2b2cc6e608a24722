import type { Instrument, InstrumentString } from "./Instrument.js";

/** An entry of an instrument file that stands by itself. */
export type InstrumentKey = Exclude<keyof Instrument, "strings">;

/** An entry of one string. */
export type StringKey = keyof InstrumentString;

/** The entries of one string as texts, as a form shows them; empty where the file has none. */
export type StringFields = Readonly<Record<StringKey, string>>;

/** The entries of an instrument file as texts, as a form shows them, right or wrong; empty where the file has none. */
export interface InstrumentFields extends Readonly<Record<InstrumentKey, string>> {
  readonly strings: readonly StringFields[];
}
