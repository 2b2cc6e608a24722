import type { AudioRecording } from "../audio/AudioRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { readAnalysisBand } from "../audio/readAnalysisBand.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { decimationFactor } from "../signal/Decimator.js";

/** One channel of a stretch. */
export interface ChannelSound {
  readonly segment: AnalysisSegment;
  /** What a power in it is to be multiplied by for its part in the mean of all channels. */
  readonly levelScale: number;
}

/** The strongest channel of a stretch. */
export interface StrongestChannel extends ChannelSound {
  /** The channels that are no copies of it: a string may stand on one side of a stereo recording alone. */
  readonly others: readonly ChannelSound[];
}

/** A channel 30 dB weaker than the strongest has nothing to tell. */
const LEAST_SHARE = 1e-3;
/** A channel is a copy of another, gain and polarity apart, where this is left of it (50 dB down). */
const COPY_SHARE = 1e-5;

/**
 * Reads the channel in which a stretch is strongest, decimated, with those that hold something else.
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
  const powers = channels.map((samples) => product(samples, samples));
  const strongest = powers.indexOf(Math.max(...powers));
  const isCopy = channels.map((samples, c) => {
    if (c === strongest || !(powers[c] > 0)) return c === strongest;
    return 1 - product(samples, channels[strongest]) ** 2 / (powers[c] * powers[strongest]) < COPY_SHARE;
  });
  const copied = powers.reduce((sum, power, c) => sum + (isCopy[c] ? power : 0), 0);
  return {
    segment: { samples: channels[strongest], sampleRateHz, firstSeconds },
    levelScale: powers[strongest] > 0 ? copied / powers[strongest] / channels.length : 1,
    others: channels.flatMap((samples, c) =>
      isCopy[c] || powers[c] < LEAST_SHARE * powers[strongest]
        ? []
        : [{ segment: { samples, sampleRateHz, firstSeconds }, levelScale: 1 / channels.length }],
    ),
  };
}

function product(a: Float32Array, b: Float32Array): number {
  const at = kernels().scratch(a.byteLength + b.byteLength, ScratchUser.blocks);
  const { functions, f32 } = kernels();
  f32.set(a, at / a.BYTES_PER_ELEMENT);
  f32.set(b, at / a.BYTES_PER_ELEMENT + a.length);
  return functions.productSum(at, at + a.byteLength, a.length);
}
