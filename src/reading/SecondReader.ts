import type { BandAhead } from "../strings/BandAhead.js";
import type { JobCall, JobKind, JobResult, ReadingContext } from "./readingJobs.js";

/** Another thread that reads the same take along. Whatever it does comes out as it would without it. */
export interface SecondReader {
  /** Gives memory that both threads see. */
  memory(byteLength: number): ArrayBufferLike;
  /** What it reads of the recording while this thread tracks it; null where it reads nothing of it. */
  readonly ahead: BandAhead | null;
  /** Tells it what all jobs know; it has the recording itself. */
  prepare(context: Omit<ReadingContext, "recording">): void;
  /**
   * Does jobs, shared between both threads.
   *
   * @param here - does one in this thread
   * @returns the results in the order of the calls
   */
  share<K extends JobKind>(
    kind: K,
    calls: readonly JobCall<K>[],
    here: (call: JobCall<K>) => JobResult<K>,
  ): JobResult<K>[];
  /** Has one job done, if it comes to it before the result is asked for; else that is done here. */
  begin<K extends JobKind>(
    kind: K,
    call: JobCall<K>,
    here: (call: JobCall<K>) => JobResult<K>,
  ): () => JobResult<K>;
}
