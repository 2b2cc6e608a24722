import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";

type PassageDocument = WheelDocument["passages"][number];

/** More passages than this are told in a table. */
const MOST_TOLD = 2;

/** Which passages are told in full, and from which advice is drawn. */
export function toldPassages({ passages }: WheelDocument): {
  /** True where there are so many that a table stands for them. */
  readonly isLong: boolean;
  readonly turning: readonly PassageDocument[];
  readonly advised: readonly PassageDocument[];
} {
  const isLong = passages.length > MOST_TOLD;
  const shown = passages.filter(({ turnsPerSecond }) => turnsPerSecond !== null);
  const turning = isLong ? fullest(shown) : shown;
  return { isLong, turning, advised: isLong && turning.length > 0 ? turning : passages };
}

/** The one passage that says most: of the most strings, and of these the longest. */
function fullest(passages: readonly PassageDocument[]): PassageDocument[] {
  const seconds = ({ startSeconds, endSeconds }: PassageDocument) => endSeconds - startSeconds;
  return [...passages]
    .sort((a, b) => b.strings.length - a.strings.length || seconds(b) - seconds(a))
    .slice(0, 1);
}
