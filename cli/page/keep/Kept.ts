import type { LogNotes, MeasureDocument, TakeAnswer } from "../../../src/index.js";

/** An instrument that was kept, as its file would say it. */
export interface KeptInstrument {
  readonly id: string;
  readonly name: string;
  readonly yaml: string;
  readonly keptAt: number;
}

/** When a take was made, the weather and the work done before it, as a line of a log says them. */
export type TakeNotes = Omit<LogNotes, "file">;

/** A recording that was kept, byte for byte. */
export interface KeptTake {
  readonly id: string;
  readonly name: string;
  readonly blob: Blob;
  readonly keptAt: number;
}

/** A reading that was kept. */
export interface KeptReading {
  readonly id: string;
  readonly name: string;
  readonly keptAt: number;
  readonly document: MeasureDocument;
  readonly answer: TakeAnswer;
  /** Missing in what was kept by an older page. */
  readonly notes?: TakeNotes;
}

/** A log of takes that was brought in, as it came. */
export interface KeptLog {
  readonly id: string;
  readonly name: string;
  readonly keptAt: number;
  readonly text: string;
}

/** All that is kept, newest first. */
export interface Kept {
  readonly instruments: readonly KeptInstrument[];
  readonly takes: readonly KeptTake[];
  readonly readings: readonly KeptReading[];
  readonly logs: readonly KeptLog[];
}

/** The kinds of things that are kept, each a store of the browser's database. */
export const keptKinds = ["instruments", "takes", "readings", "logs"] as const;

/** One of {@link keptKinds}. */
export type KeptKind = (typeof keptKinds)[number];
