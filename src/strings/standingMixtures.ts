import type { TimeSpan } from "../audio/findPauses.js";
import type { MixedStrings, StringMove } from "./MixedStrings.js";

/** When the pitch of a string that moved stands, and whether that is after its last move or before it. */
export interface Standing extends TimeSpan {
  readonly move: StringMove;
  readonly given: "before" | "after";
}

/**
 * Of a string that moved, the latest time between moves in which it was told: the pitch that is given is that of this time.
 *
 * @param told - where it was told
 * @returns null where it did not move, or was told nowhere
 */
export function standingTime(told: readonly TimeSpan[], moves: readonly StringMove[]): Standing | null {
  const rising = [...moves].sort((a, b) => a.startSeconds - b.startSeconds);
  for (let i = rising.length; i >= 0 && rising.length > 0; i--) {
    const startSeconds = i === 0 ? Number.NEGATIVE_INFINITY : middle(rising[i - 1]);
    const endSeconds = i === rising.length ? Number.POSITIVE_INFINITY : middle(rising[i]);
    const isIn = (one: TimeSpan) => middle(one) > startSeconds && middle(one) < endSeconds;
    if (!told.some(isIn)) continue;
    const given = i === rising.length ? "after" : "before";
    return { startSeconds, endSeconds, move: rising[Math.min(i, rising.length - 1)], given };
  }
  return null;
}

function middle({ startSeconds, endSeconds }: TimeSpan): number {
  return (startSeconds + endSeconds) / 2;
}

/** The mixtures with strings that moved only where their pitch stands. */
export function standingMixtures(
  mixtures: readonly MixedStrings[],
  moves: readonly StringMove[],
): readonly MixedStrings[] {
  if (moves.length === 0) return mixtures;
  return mixtures.map((mixture) => ({
    ...mixture,
    strings: mixture.strings.filter(({ targetIndex }) => {
      const told = mixtures.filter(({ strings }) =>
        strings.some((one) => one.targetIndex === targetIndex && !one.isGuess && one.neededSeconds === null),
      );
      const own = moves.filter((move) => move.targetIndex === targetIndex);
      return isStanding(mixture, standingTime(told, own));
    }),
  }));
}

/** True for a passage in the time in which a string's pitch stands; any is, where it did not move. */
export function isStanding(passage: TimeSpan, standing: Standing | null): boolean {
  if (standing === null) return true;
  return middle(passage) > standing.startSeconds && middle(passage) < standing.endSeconds;
}
