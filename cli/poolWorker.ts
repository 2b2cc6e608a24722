import { AnalysisError } from "../src/index.js";
import { type PoolAnswer, type PoolSetup, poolCounts } from "./PoolMessages.js";
import { readOneTake } from "./readOneTake.js";
import { countUp } from "./sharedCounts.js";

/** Reads takes that nobody has begun until none is left, in a thread of its own. */
export function poolWorker({ paths, chosen, withPictures, counts, answers }: PoolSetup): void {
  for (;;) {
    const index = Atomics.add(counts, poolCounts.next, 1);
    const path = paths[index];
    if (path === undefined) break;
    const { reading, spectrogram } = readOneTake(path, chosen, withPictures, () =>
      Atomics.add(counts, poolCounts.alive, 1),
    );
    // What has to be decoded first only the thread that is watched over can have decoded.
    const read: PoolAnswer["read"] = !(reading instanceof AnalysisError)
      ? { reading, spectrogram }
      : reading.code === "media-unreadable"
        ? null
        : { error: { code: reading.code, details: reading.details } };
    answers.postMessage({ index, read } satisfies PoolAnswer);
    countUp(counts, poolCounts.answered);
  }
}
