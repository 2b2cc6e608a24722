import type { AnalysisSegment } from "../AnalysisSegment.js";
import { jointState } from "./JointState.js";
import { soundingStrings } from "./soundingStrings.js";

/** A string that was found to sound. */
export interface DetectedString {
  /** Index into the targets. */
  readonly index: number;
  readonly frequencyHz: number;
}

/**
 * Finds out which strings of an instrument sound in a passage; see {@link soundingStrings} for how.
 *
 * @param targetsHz - in any order; a string is found within 60 cents of its target
 * @returns in the order of the targets; of strings with one target the first ones
 */
export function detectStrings(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  targetsHz: readonly number[],
): DetectedString[] {
  const state = jointState(segment, startSeconds, endSeconds, targetsHz);
  const sounding = soundingStrings(state);
  return state.strings.flatMap((string, index) =>
    sounding.includes(string) ? [{ index, frequencyHz: string.baseHz }] : [],
  );
}
