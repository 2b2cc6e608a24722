import type { LiveReading } from "../../../src/index.js";
import type { TargetsAsked } from "./Messages.js";

/** What the page tells the thread that listens while a take is recorded. */
export type LiveRequest =
  | {
      readonly kind: "begin";
      readonly sampleRateHz: number;
      readonly channelCount: number;
      readonly targets: TargetsAsked;
    }
  | { readonly kind: "block"; readonly channels: readonly Float32Array[] };

/** Something about the recording, in words. */
export interface ToldFinding {
  readonly code: string;
  readonly severity: "problem" | "warning" | "info";
  readonly message: string;
}

/** What comes back. */
export type LiveReply =
  | { readonly kind: "reading"; readonly reading: LiveReading; readonly findings: readonly ToldFinding[] }
  | { readonly kind: "failed"; readonly sentence: string };
