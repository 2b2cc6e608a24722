import {
  type JobCall,
  type JobKind,
  type JobResult,
  type ReadingContext,
  readingJobs,
} from "./readingJobs.js";
import type { SecondReader } from "./SecondReader.js";
import type { Work } from "./Work.js";

/**
 * How the jobs of a take are done: by this thread alone, or shared with another.
 *
 * @param onDone - called after each that is done here
 */
export function workOn(context: ReadingContext, second: SecondReader | null, onDone: () => void): Work {
  second?.prepare(context);
  const hereFor = <K extends JobKind>(kind: K) => {
    // The compiler doesn't see that a kind's job fits its own calls.
    const job = readingJobs[kind] as (context: ReadingContext, call: JobCall<K>) => JobResult<K>;
    return (call: JobCall<K>) => {
      const result = job(context, call);
      onDone();
      return result;
    };
  };
  return {
    all: (kind, calls) => {
      const here = hereFor(kind);
      return second === null ? calls.map(here) : second.share(kind, calls, here);
    },
    begin: (kind, call) => {
      const here = hereFor(kind);
      return second === null ? () => here(call) : second.begin(kind, call, here);
    },
  };
}
