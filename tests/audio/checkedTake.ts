import { checkRecording, type RecordingCheck } from "../../src/audio/checkRecording.js";
import type { Finding, FindingCode } from "../../src/audio/Finding.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { addNote, type NoiseColour, noise, quantised, type SyntheticNote } from "./syntheticTake.js";

export interface TakePlan {
  readonly rateHz: number;
  readonly notes: readonly SyntheticNote[];
  readonly lengthSeconds: number;
}

/** Three notes (base, fifth, octave) of 1.5 s with equal pauses before, between and after them. */
export function threeNotes(
  rateHz: number,
  pauseSeconds: number,
  baseHz = 98,
  decay60Seconds = 0.3,
): TakePlan {
  const notes = [1, 1.5, 2].map((ratio, k) => {
    const startSeconds = pauseSeconds + k * (1.5 + pauseSeconds);
    return {
      startSeconds,
      endSeconds: startSeconds + 1.5,
      frequencyHz: ratio * baseHz,
      amplitude: 0.1,
      decay60Seconds,
    };
  });
  return { rateHz, notes, lengthSeconds: 4.5 + 4 * pauseSeconds };
}

/** The noise of a take, before the notes are added. */
export function planNoise(plan: TakePlan, colour: NoiseColour, rmsDb: number, seed: number): Float64Array {
  return noise(colour, Math.round(plan.lengthSeconds * plan.rateHz), 10 ** (rmsDb / 20), seed);
}

/** Adds the notes, rounds to a 24-bit (or other) format and checks. */
export function checkedTake(plan: TakePlan, background: Float64Array, bits = 24): RecordingCheck {
  for (const note of plan.notes) addNote(background, plan.rateHz, note);
  const recording = memoryRecording([quantised(background, bits)], plan.rateHz);
  return checkRecording(recording, surveyRecording(recording), plan.notes);
}

export function findingOf(check: RecordingCheck, code: FindingCode): Finding | undefined {
  return check.findings.find((finding) => finding.code === code);
}

export function numberOf(check: RecordingCheck, code: FindingCode, key: string): number {
  const value = findingOf(check, code)?.values[key];
  return typeof value === "number" ? value : Number.NaN;
}
