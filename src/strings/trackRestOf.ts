import type { AudioRecording } from "../audio/AudioRecording.js";
import { FRAME_HOP_SECONDS } from "../pitch/FrameTracker.js";
import type { TrackPart } from "../pitch/TrackPart.js";
import { trackRest } from "../pitch/trackRest.js";
import { decimationFactor } from "../signal/Decimator.js";

/** Less than this to track, in frames, is tracked sooner than told. */
const WORTH_FRAMES = 300;

/**
 * Tracks the second half of what is left of a recording's band to track.
 *
 * @param channels - its band, all there
 * @param frames - so many are tracked already
 * @returns where it begins and the steps of it; null where too little is left
 */
export function trackRestOf(
  { sampleRateHz, durationSeconds }: Pick<AudioRecording, "sampleRateHz" | "durationSeconds">,
  channels: readonly Float32Array[],
  frames: number,
): { readonly firstFrame: number; readonly steps: Generator<void, TrackPart> } | null {
  const left = Math.floor(durationSeconds / FRAME_HOP_SECONDS) - frames;
  if (left < WORTH_FRAMES) return null;
  const firstFrame = frames + Math.ceil(left / 2);
  const rate = sampleRateHz / decimationFactor(sampleRateHz);
  return { firstFrame, steps: trackRest(channels, rate, durationSeconds, firstFrame) };
}
