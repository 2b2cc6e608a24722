import type { MeasureDocument, TakeAnswer } from "../../src/index.js";
import type { DrawnPage } from "./worker/Messages.js";

/** What a take came to. */
export interface BenchReading {
  readonly document: MeasureDocument;
  readonly answer: TakeAnswer;
  /** Null until its charts are drawn. */
  readonly page: DrawnPage | null;
}

/** A recording on the bench. */
export interface BenchTake {
  readonly id: string;
  readonly name: string;
  readonly blob: Blob;
  /** What the browser made of it, where it is not WAV. */
  readonly decoded: Blob | null;
  readonly state: "waiting" | "decoding" | "reading" | "drawing" | "read" | "stopped" | "failed";
  /** From 0 to 1, while it is being read. */
  readonly share: number;
  readonly reading: BenchReading | null;
  /** Why it could not be read. */
  readonly fault: string | null;
}
