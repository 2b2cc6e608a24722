import type { MessagePort } from "node:worker_threads";
import type { AnalysisErrorDetails, MediaFormat } from "../src/index.js";
import type { SharedCounts } from "./sharedCounts.js";
import type { TextSink } from "./Terminal.js";

/** What the thread that works tells the one that watches. */
export type WorkMessage =
  | { readonly kind: "text"; readonly to: "stdout" | "stderr"; readonly text: string }
  | { readonly kind: "decode"; readonly request: DecodeRequest }
  | { readonly kind: "release"; readonly descriptor: number }
  | { readonly kind: "serve"; readonly request: ServeRequest }
  | { readonly kind: "done"; readonly exitCode: number };

/** A recording to be decoded by ffmpeg. */
export interface DecodeRequest {
  /** Of the file, opened for reading; both threads share descriptors. */
  readonly descriptor: number;
  /** Its whole path, for systems on which a program can't be handed a descriptor. */
  readonly path: string;
  readonly format: MediaFormat;
}

/** The bench page, to be served from then on. */
export interface ServeRequest {
  readonly port: number;
  readonly opensBrowser: boolean;
}

/** The sound as WAV in a file that has no name, or why there is none. */
export type DecodeReply =
  | { readonly descriptor: number; readonly sizeBytes: number; readonly hasFaults: boolean }
  | { readonly reason: AnalysisErrorDetails["media-unreadable"]["reason"] };

/** What the thread that works is given. */
export interface WorkerSetup {
  /** Address of the module that threads start with. */
  readonly main: string;
  readonly args: readonly string[];
  readonly stdout: Pick<TextSink, "isTTY" | "columns">;
  readonly stderr: Pick<TextSink, "isTTY" | "columns">;
  readonly colour: boolean;
  /** {@link writingGate}. */
  readonly gate: SharedCounts;
  /** Counts the replies that were posted to `replies`. */
  readonly replyCount: SharedCounts;
  readonly replies: MessagePort;
  /** To the thread that watches, as far as it lends a hand; null where it doesn't. */
  readonly hand: MessagePort | null;
}

/**
 * States of the gate between writing a file and ending at an interrupt: never both. An interrupt within a write makes it `lastWrite`;
 * once that is done, or where nothing was being written, it is `ended`, and nothing is begun any more.
 */
export const writingGate = { open: 0, writing: 1, lastWrite: 2, ended: 3 } as const;
