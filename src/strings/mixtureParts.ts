import type { TimeSpan } from "../audio/findPauses.js";

/** Attack, decay and the uncertainty of a change are cut off. */
const TRIM_START_SECONDS = 0.3;
const TRIM_END_SECONDS = 0.25;
/** Shorter parts hold too few beats to part strings that share partials. */
const LEAST_SECONDS = 1.5;
/** What a part takes up, ends included. */
export const LEAST_CUT_SECONDS = LEAST_SECONDS + TRIM_START_SECONDS + TRIM_END_SECONDS;
/** A longer part is cut, so that time and memory stay bounded. */
export const LONGEST_SECONDS = 30;

/** The parts of a stretch between changes, their ends cut off; those too short are left out. */
export function mixtureParts({ startSeconds, endSeconds }: TimeSpan, changes: readonly number[]): TimeSpan[] {
  const edges = [startSeconds, ...changes.filter((at) => at > startSeconds && at < endSeconds), endSeconds];
  return edges.slice(1).flatMap((edge, i) => {
    const from = edges[i] + TRIM_START_SECONDS;
    const to = edge - TRIM_END_SECONDS;
    if (to - from < LEAST_SECONDS) return [];
    const count = Math.ceil((to - from) / LONGEST_SECONDS);
    return Array.from({ length: count }, (_, part) => ({
      startSeconds: from + ((to - from) * part) / count,
      endSeconds: from + ((to - from) * (part + 1)) / count,
    }));
  });
}
