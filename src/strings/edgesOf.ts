import type { TimeSpan } from "../audio/findPauses.js";

/** Start and end of a piece and the changes within it, in seconds, rising. */
export function edgesOf({ startSeconds, endSeconds }: TimeSpan, changes: readonly number[]): number[] {
  return [startSeconds, ...changes.filter((at) => at > startSeconds && at < endSeconds), endSeconds];
}
