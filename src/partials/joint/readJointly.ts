import { isOneNote } from "../../units/isOneNote.js";
import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { JointFit } from "./JointFit.js";
import { jointState } from "./JointState.js";
import { jointFitOf } from "./jointFitOf.js";
import { type RestLine, restLine } from "./restLine.js";
import { settleTogether } from "./settleTogether.js";
import { soundingStrings } from "./soundingStrings.js";

/** A string that was found to sound, and its fit. */
export interface JointReading {
  /** Index into the targets. */
  readonly index: number;
  readonly fit: JointFit;
}

/** The strings of a passage, and what they leave. */
export interface JointReadings {
  /** In the order of the targets; of strings with one target the first ones. */
  readonly strings: readonly JointReading[];
  /** The strongest of what they leave at the partials of strings that were not found; null where nothing is left. */
  readonly rest: RestLine | null;
}

/**
 * Finds out which strings of an instrument sound in a passage, and fits those jointly: {@link detectStrings} and
 * {@link fitJointly} in one, without looking for each string twice.
 *
 * @param targetsHz - in any order; a string is found within 60 cents of its target
 */
export function readJointly(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  targetsHz: readonly number[],
): JointReadings {
  const all = jointState(segment, startSeconds, endSeconds, targetsHz);
  const sounding = soundingStrings(all);
  const state = { ...all, strings: sounding };
  settleTogether(state);
  const readings: JointReadings = {
    strings: all.strings.flatMap((string, index) =>
      sounding.includes(string) ? [{ index, fit: jointFitOf(state, string) }] : [],
    ),
    rest: restLine(
      state,
      all.strings.filter((string) => sounding.every(({ baseHz }) => !isOneNote(baseHz, string.baseHz))),
    ),
  };
  // No frame leaves with them.
  all.spectrum.memory.release();
  return readings;
}
