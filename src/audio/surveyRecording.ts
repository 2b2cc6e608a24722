import type { AudioRecording } from "./AudioRecording.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { SurveyAccumulator } from "./SurveyAccumulator.js";

/** About a second at common rates: 8 MB with 32 channels. */
const PIECE_FRAMES = 65536;

/**
 * Surveys all samples of a recording in one pass, in pieces.
 *
 * @param onProgress - called after each piece with the share that is done, 0 to 1
 * @example
 * ```ts
 * const survey = surveyRecording(memoryRecording([samples], 48000));
 * survey.channels[0].peak; // 0.7
 * ```
 */
export function surveyRecording(
  recording: AudioRecording,
  onProgress?: (share: number) => void,
): RecordingSurvey {
  const accumulator = new SurveyAccumulator(recording.sampleRateHz, recording.channelCount);
  for (let start = 0; start < recording.frameCount; start += PIECE_FRAMES) {
    accumulator.add(recording.read(start, PIECE_FRAMES));
    onProgress?.(Math.min(1, (start + PIECE_FRAMES) / recording.frameCount));
  }
  return accumulator.finish();
}
