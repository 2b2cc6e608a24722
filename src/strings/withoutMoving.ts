import type { StringTarget } from "../instrument/Instrument.js";
import type { MixedStrings, StringInMixture, StringMove } from "./MixedStrings.js";
import { movedFinding } from "./movedFinding.js";
import { nearMultiple } from "./nearMultiple.js";

/** A part that begins or ends this close to a move lies next to it. */
const NEXT_SECONDS = 1.5;

/**
 * A mixture with the strings that move in it left as guesses: a mean over a move is no pitch of theirs. Where a string that moves is not found, what
 * was taken for one an octave or twelfth above it is left out: those are its own partials.
 */
export function withoutMoving(
  mixed: MixedStrings,
  moves: readonly StringMove[],
  targets: readonly StringTarget[],
): MixedStrings {
  const near = (by: number) =>
    moves.filter(
      (move) => move.startSeconds - by < mixed.endSeconds && move.endSeconds + by > mixed.startSeconds,
    );
  const beside = near(NEXT_SECONDS);
  if (beside.length === 0) return mixed;
  const moving = near(0);
  const isAbove = ({ reading }: StringInMixture, { targetIndex }: StringMove) =>
    (nearMultiple(reading.frequencyHz, targets[targetIndex].targetHz) ?? 0) > 1;
  const isFound = ({ targetIndex }: StringMove) =>
    mixed.strings.some((one) => one.targetIndex === targetIndex);
  const isItsPartials = (string: StringInMixture) =>
    moving.some((move) => isAbove(string, move) && (!isFound(move) || string.neededSeconds !== null)) ||
    beside.some((move) => isAbove(string, move) && !isFound(move) && string.neededSeconds !== null);
  const strings = mixed.strings
    .filter((string) => !isItsPartials(string))
    .map((string) => {
      const move = moving.find(({ targetIndex }) => targetIndex === string.targetIndex);
      if (move === undefined) return string;
      return {
        ...string,
        isGuess: true,
        reading: { ...string.reading, findings: [movedFinding(move, "unread")] },
      };
    });
  return { ...mixed, strings };
}
