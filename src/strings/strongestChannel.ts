import type { AudioRecording } from "../audio/AudioRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { readAnalysisBand } from "../audio/readAnalysisBand.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { decimationFactor } from "../signal/Decimator.js";

/** One channel of a stretch, and what its powers are to be multiplied by to give the mean of all channels. */
export interface StrongestChannel {
  readonly segment: AnalysisSegment;
  readonly levelScale: number;
  /** The other channels of the stretch: a string may stand on one side of a stereo recording alone. */
  readonly others: readonly AnalysisSegment[];
}

/** A channel 30 dB weaker than the strongest has nothing to tell. */
const LEAST_SHARE = 1e-3;

/**
 * Reads the channel in which a stretch is strongest, decimated.
 *
 * @param marginSeconds - read beyond both ends, where there is something
 */
export function strongestChannel(
  recording: AudioRecording,
  survey: RecordingSurvey,
  { startSeconds, endSeconds }: TimeSpan,
  marginSeconds: number,
): StrongestChannel {
  const sampleRateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const first = Math.max(0, Math.round((startSeconds - marginSeconds) * sampleRateHz));
  const firstSeconds = first / sampleRateHz;
  const span = { startSeconds: firstSeconds, endSeconds: endSeconds + marginSeconds };
  const channels = readAnalysisBand(recording, survey, span);
  const powers = channels.map(sumOfSquares);
  const strongest = powers.indexOf(Math.max(...powers));
  const mean = powers.reduce((sum, power) => sum + power, 0) / powers.length;
  return {
    segment: { samples: channels[strongest], sampleRateHz, firstSeconds },
    levelScale: powers[strongest] > 0 ? mean / powers[strongest] : 1,
    others: channels
      .filter((_, channel) => channel !== strongest && powers[channel] > LEAST_SHARE * powers[strongest])
      .map((samples) => ({ samples, sampleRateHz, firstSeconds })),
  };
}

function sumOfSquares(samples: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < samples.length; i++) sum += samples[i] * samples[i];
  return sum;
}
