import type { MessagePort } from "node:worker_threads";
import type { AnalysisError, Spectrogram, TakeReading } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import type { SharedCounts } from "./sharedCounts.js";

/** What a thread that reads takes is given. */
export interface PoolSetup {
  readonly paths: readonly string[];
  readonly chosen: ChosenTargets;
  readonly withPictures: boolean;
  /** {@link poolCounts}. */
  readonly counts: SharedCounts;
  readonly answers: MessagePort;
}

/** Places in the counts that the threads share. */
export const poolCounts = {
  /** The next take that nobody has begun. */
  next: 0,
  /** Answers that were posted. */
  answered: 1,
  /** Goes up while anybody works. */
  alive: 2,
  size: 3,
} as const;

/** A take that was read in a thread; errors travel as what they carry. `null` stands for one that the thread could not read as well as the first one. */
export interface PoolAnswer {
  readonly index: number;
  readonly read:
    | { readonly reading: TakeReading; readonly spectrogram: Spectrogram | null }
    | { readonly error: Pick<AnalysisError, "code" | "details"> }
    | null;
}
