import type { AudioRecording } from "../audio/AudioRecording.js";
import { HeldBand } from "../audio/HeldBand.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { SurveyAccumulator } from "../audio/SurveyAccumulator.js";
import { AnalysisError } from "../errors.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import { trackBand } from "../pitch/trackBand.js";
import { trackPitch } from "../pitch/trackPitch.js";
import { decimationFactor } from "../signal/Decimator.js";
import type { BandAhead } from "./BandAhead.js";

/** What one pass over a recording gives. */
export interface SurveyedTrack {
  readonly survey: RecordingSurvey;
  readonly track: PitchTrack;
}

/**
 * Reads a recording once: its survey, its pitch, and its analysis band where that is short enough to keep.
 *
 * @param second - another thread that reads ahead, or only shares the band; null for none
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`
 */
export function surveyedTrack(
  recording: AudioRecording,
  onProgress: (done: number) => void,
  second: {
    readonly ahead: BandAhead | null;
    memory(byteLength: number): ArrayBufferLike;
  } | null = null,
): SurveyedTrack {
  const { durationSeconds } = recording;
  if (recording.frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds });
  const ahead = second?.ahead ?? null;
  const { survey, track } =
    (ahead === null ? null : withAhead(recording, ahead, onProgress)) ??
    readAlone(recording, onProgress, second?.memory);
  const nonFiniteCount = survey.channels.reduce((sum, channel) => sum + channel.nonFiniteCount, 0);
  if (nonFiniteCount >= survey.frameCount * survey.channelCount) {
    throw new AnalysisError("recording-not-finite", { nonFiniteCount });
  }
  if (survey.channels.every(({ peak }) => peak === 0)) {
    throw new AnalysisError("recording-silent", { durationSeconds });
  }
  return { survey, track };
}

function withAhead(
  { sampleRateHz, durationSeconds }: AudioRecording,
  { channels, filledBeyond, restFrom, survey }: BandAhead,
  onProgress: (done: number) => void,
): SurveyedTrack | null {
  const rate = sampleRateHz / decimationFactor(sampleRateHz);
  const track = trackBand(channels, rate, durationSeconds, filledBeyond, onProgress, restFrom);
  const known = track === null ? null : survey();
  if (track === null || known === null) return null;
  return { track, survey: { ...known, band: new HeldBand(channels, channels[0].length) } };
}

function readAlone(
  recording: AudioRecording,
  onProgress: (done: number) => void,
  memory?: (byteLength: number) => ArrayBufferLike,
): SurveyedTrack {
  const { sampleRateHz, channelCount, frameCount } = recording;
  const accumulator = new SurveyAccumulator(sampleRateHz, channelCount);
  const outputCount = Math.ceil(frameCount / decimationFactor(sampleRateHz));
  const band = HeldBand.forRecording(channelCount, outputCount, memory);
  const track = trackPitch(
    recording,
    (piece, share) => {
      accumulator.add(piece);
      onProgress(share);
    },
    (piece) => band?.add(piece),
  );
  const survey: RecordingSurvey = { ...accumulator.finish(), band };
  return { survey, track };
}
