import { AnalysisError } from "../errors.js";
import type { AudioRecording } from "./AudioRecording.js";

/**
 * Refuses a recording that lasts longer than a kind of take can.
 *
 * @param name - what its length is called in the error
 * @throws AnalysisError `value-out-of-range`
 */
export function refuseLonger({ durationSeconds }: AudioRecording, limitSeconds: number, name: string): void {
  if (durationSeconds <= limitSeconds) return;
  throw new AnalysisError("value-out-of-range", {
    name,
    given: Math.round(durationSeconds),
    allowedMinimum: 0,
    allowedMaximum: limitSeconds,
  });
}
