import type { TimeSpan } from "../audio/findPauses.js";
import { joinedMixtures } from "../strings/joinedMixtures.js";
import type { MixtureReading } from "../strings/MixedStrings.js";
import { mixturePieces } from "../strings/mixturePieces.js";
import type { Work } from "./Work.js";

/**
 * Reads the strings that sound together in each stretch, piece by piece (see `readMixturePiece`).
 *
 * @returns one reading a stretch
 */
export function readMixtures(
  stretches: readonly TimeSpan[],
  given: readonly number[] | null,
  withTwins: boolean,
  humFrequenciesHz: readonly number[],
  work: Work,
): MixtureReading[] {
  const pieces = stretches.map(mixturePieces);
  const read = work.all(
    "mixture",
    pieces.flat().map((piece) => ({ piece, given, withTwins, humFrequenciesHz })),
  );
  let next = 0;
  return pieces.map(({ length }) => {
    next += length;
    return joinedMixtures(read.slice(next - length, next));
  });
}
