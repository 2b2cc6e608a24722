import type { MeasureDocument, TakeAnswer } from "../../../src/index.js";

/** An instrument that was kept, as its file would say it. */
export interface KeptInstrument {
  readonly id: string;
  readonly name: string;
  readonly yaml: string;
  readonly keptAt: number;
}

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
}

/** All that is kept, newest first. */
export interface Kept {
  readonly instruments: readonly KeptInstrument[];
  readonly takes: readonly KeptTake[];
  readonly readings: readonly KeptReading[];
}

/** The kinds of things that are kept, each a store of the browser's database. */
export const keptKinds = ["instruments", "takes", "readings"] as const;

/** One of {@link keptKinds}. */
export type KeptKind = (typeof keptKinds)[number];
