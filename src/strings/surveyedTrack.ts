import type { AudioRecording } from "../audio/AudioRecording.js";
import { HeldBand } from "../audio/HeldBand.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { SurveyAccumulator } from "../audio/SurveyAccumulator.js";
import { AnalysisError } from "../errors.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import { trackPitch } from "../pitch/trackPitch.js";
import { decimationFactor } from "../signal/Decimator.js";

/** What one pass over a recording gives. */
export interface SurveyedTrack {
  readonly survey: RecordingSurvey;
  readonly track: PitchTrack;
}

/**
 * Reads a recording once: its survey, its pitch, and its analysis band where that is short enough to keep.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`
 */
export function surveyedTrack(recording: AudioRecording, onProgress: (done: number) => void): SurveyedTrack {
  const { durationSeconds } = recording;
  if (recording.frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds });
  const accumulator = new SurveyAccumulator(recording.sampleRateHz, recording.channelCount);
  const outputCount = Math.ceil(recording.frameCount / decimationFactor(recording.sampleRateHz));
  const band = HeldBand.forRecording(recording.channelCount, outputCount);
  const track = trackPitch(
    recording,
    (piece, share) => {
      accumulator.add(piece);
      onProgress(share);
    },
    (piece) => band?.add(piece),
  );
  const survey: RecordingSurvey = { ...accumulator.finish(), band };
  const nonFiniteCount = survey.channels.reduce((sum, channel) => sum + channel.nonFiniteCount, 0);
  if (nonFiniteCount >= survey.frameCount * survey.channelCount) {
    throw new AnalysisError("recording-not-finite", { nonFiniteCount });
  }
  if (survey.channels.every(({ peak }) => peak === 0)) {
    throw new AnalysisError("recording-silent", { durationSeconds });
  }
  return { survey, track };
}
