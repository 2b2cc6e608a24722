import type { StringMove } from "./MixedStrings.js";

/** A change this close to a move is the move itself. */
const NEAR_SECONDS = 0.5;

/** The changes with those of strings that move: where each move begins and ends, in place of what was seen of it. */
export function withMoves(changes: readonly number[], moves: readonly StringMove[]): number[] {
  const kept = changes.filter((at) =>
    moves.every(
      ({ startSeconds, endSeconds }) => at < startSeconds - NEAR_SECONDS || at > endSeconds + NEAR_SECONDS,
    ),
  );
  return [...kept, ...moves.flatMap(({ startSeconds, endSeconds }) => [startSeconds, endSeconds])].sort(
    (a, b) => a - b,
  );
}
