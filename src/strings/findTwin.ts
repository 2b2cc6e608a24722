import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { readJointly } from "../partials/joint/readJointly.js";

/** Where a foreign sound or a change disturbs, two strings are soon found that are none: both must explain this much. */
const LEAST_EXPLAINED = 0.97;
const LEAST_THIRD = 0.6;

/**
 * Looks for two strings of nearly one pitch where the instrument has one string of that note, or was said to.
 *
 * @returns the two frequencies, the lower one first; null where there is no such pair, or where any string found leaves
 * much unexplained or does not sound throughout
 */
export function findTwin(
  segment: AnalysisSegment,
  { startSeconds, endSeconds }: TimeSpan,
  targetsHz: readonly number[],
): readonly [number, number] | null {
  const count = targetsHz.length;
  const { strings: found } = readJointly(segment, startSeconds, endSeconds, [...targetsHz, ...targetsHz]);
  const holds = found.every(
    ({ fit }) => fit.explainedShare >= LEAST_EXPLAINED && fit.weakestThird > LEAST_THIRD,
  );
  if (!holds) return null;
  for (const one of found) {
    const twin = found.find(({ index }) => index === one.index + count);
    if (twin === undefined) continue;
    const [a, b] = [one.fit.frequencyHz, twin.fit.frequencyHz];
    return a < b ? [a, b] : [b, a];
  }
  return null;
}
