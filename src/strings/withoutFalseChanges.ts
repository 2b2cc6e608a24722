import type { TimeSpan } from "../audio/findPauses.js";
import { edgesOf } from "./edgesOf.js";
import { LONGEST_SECONDS, mixtureParts } from "./mixtureParts.js";
import type { MixturePart } from "./readMixturePart.js";

/** A shorter piece beside a change is an onset or an end, not a part that was cut off. */
const LEAST_PIECE_SECONDS = 0.8;

/**
 * Leaves out the changes at which no string joins or leaves: a bow that presses harder, or gets nearer to the bridge, changes
 * the spectrum as well. Where a part beside a change could not be read, or is too short for it, it is read across the
 * change. If that finds two strings or more, all sounding evenly throughout and leaving nothing over, and none that either side has is
 * missing, then nothing joined or left.
 *
 * @param changes - in seconds, rising
 */
export function withoutFalseChanges(
  piece: TimeSpan,
  changes: readonly number[],
  read: (part: TimeSpan) => MixturePart,
): number[] {
  const edges = edgesOf(piece, changes);
  const inside = edges.slice(1, -1);
  const between = (from: number, to: number) =>
    mixtureParts({ startSeconds: edges[from], endSeconds: edges[to] }, []);
  const isUnread = (from: number) =>
    edges[from + 1] - edges[from] >= LEAST_PIECE_SECONDS &&
    !between(from, from + 1).some((part) => read(part).mixed !== null);
  const stringsIn = (from: number, to: number) =>
    between(from, to).flatMap(
      (part) => read(part).mixed?.strings.map(({ targetIndex }) => targetIndex) ?? [],
    );
  for (let i = 0; i + 2 < edges.length; ) {
    let to = i + 2;
    while (to + 1 < edges.length && between(i, to).length === 0) to++;
    const numbers = Array.from({ length: to - i }, (_, k) => i + k);
    const tooLong = edges[to] - edges[i] > LONGEST_SECONDS;
    const [across] = tooLong || !numbers.some(isUnread) ? [] : between(i, to).map(read);
    const all = across !== undefined && isEven(across) ? across.mixed?.strings : undefined;
    const holds =
      all !== undefined &&
      numbers.every((k) =>
        stringsIn(k, k + 1).every((index) => all.some(({ targetIndex }) => targetIndex === index)),
      );
    if (holds) edges.splice(i + 1, to - i - 1);
    else i++;
  }
  return changes.filter((at) => !inside.includes(at) || edges.includes(at));
}

/** True where all strings of a part sound throughout and leave nothing. */
function isEven({ mixed, restHz }: MixturePart): boolean {
  return (
    mixed !== null &&
    mixed.strings.length >= 2 &&
    restHz === null &&
    mixed.strings.every(({ isGuess, reading }) => !isGuess && reading.findings.length === 0)
  );
}
