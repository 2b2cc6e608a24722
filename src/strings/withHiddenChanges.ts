import type { TimeSpan } from "../audio/findPauses.js";
import { edgesOf } from "./edgesOf.js";
import { LEAST_CUT_SECONDS, mixtureParts } from "./mixtureParts.js";
import type { MixturePart } from "./readMixturePart.js";

/** Halves of halves, no further: each halving takes as long as the first reading. */
const MOST_HALVINGS = 2;

/**
 * Adds changes where a part leaves something over that is none of the strings found in it: halved, it may show a string that
 * moves, or sounds for part of the time. Halves that show no more are not cut.
 *
 * @param changes - in seconds, rising
 */
export function withHiddenChanges(
  piece: TimeSpan,
  changes: readonly number[],
  read: (part: TimeSpan) => MixturePart,
): number[] {
  const edges = edgesOf(piece, changes);
  const added = edges.slice(1).flatMap((edge, i) => halved(edges[i], edge, read, MOST_HALVINGS).cuts);
  return [...changes, ...added].sort((a, b) => a - b);
}

interface Halved {
  readonly cuts: readonly number[];
  /** The strings that were told, by the indices of their targets. */
  readonly told: readonly number[];
}

function halved(from: number, to: number, read: (part: TimeSpan) => MixturePart, times: number): Halved {
  const parts = mixtureParts({ startSeconds: from, endSeconds: to }, []).map(read);
  // Only what leaves nothing over, and is sure of all it tells, is surer than the whole.
  const told = parts.flatMap(({ mixed, restHz }) =>
    times < MOST_HALVINGS &&
    (restHz !== null || mixed?.strings.some(({ reading }) => reading.findings.length > 0))
      ? []
      : (mixed?.strings.filter(({ isGuess }) => !isGuess).map(({ targetIndex }) => targetIndex) ?? []),
  );
  if (times === 0 || to - from < 2 * LEAST_CUT_SECONDS || parts.every(({ restHz }) => restHz === null)) {
    return { cuts: [], told };
  }
  const middle = (from + to) / 2;
  const first = halved(from, middle, read, times - 1);
  const second = halved(middle, to, read, times - 1);
  const both = [...first.told, ...second.told];
  if (both.every((index) => told.includes(index))) return { cuts: [], told };
  return { cuts: [...first.cuts, middle, ...second.cuts], told: both };
}
