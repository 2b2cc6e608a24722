import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { detectStrings } from "../partials/joint/detectStrings.js";
import type { TimeSpan } from "./TimeSpan.js";

/**
 * Looks for two strings of nearly one pitch where the instrument has one string of that note, or was said to.
 *
 * @returns the two frequencies, the lower one first; null where there is no such pair
 */
export function findTwin(
  segment: AnalysisSegment,
  { startSeconds, endSeconds }: TimeSpan,
  targetsHz: readonly number[],
): readonly [number, number] | null {
  const count = targetsHz.length;
  const found = detectStrings(segment, startSeconds, endSeconds, [...targetsHz, ...targetsHz]);
  for (const one of found) {
    const twin = found.find(({ index }) => index === one.index + count);
    if (twin !== undefined) {
      return one.frequencyHz < twin.frequencyHz
        ? [one.frequencyHz, twin.frequencyHz]
        : [twin.frequencyHz, one.frequencyHz];
    }
  }
  return null;
}
