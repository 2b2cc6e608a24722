import type { JobCall, JobKind, JobResult } from "./readingJobs.js";

/** How the jobs of a take are done. */
export interface Work {
  /** Does jobs of one kind and gives their results in their order. */
  all<K extends JobKind>(kind: K, calls: readonly JobCall<K>[]): JobResult<K>[];
  /** Has one done while something else is; it is waited for, or done then, where its result is asked for. */
  begin<K extends JobKind>(kind: K, call: JobCall<K>): () => JobResult<K>;
}
