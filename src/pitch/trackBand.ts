import { BandTracker } from "./BandTracker.js";
import { FRAME_HOP_SECONDS } from "./FrameTracker.js";
import type { PitchTrack } from "./PitchTrack.js";
import type { TrackPart } from "./TrackPart.js";

const PIECE_SAMPLES = 8192;

/**
 * Frame-wise fundamental of an analysis band that another thread fills.
 *
 * @param channels - one array a channel, as long as the band will be
 * @param sampleRateHz - after decimation
 * @param durationSeconds - of the whole recording
 * @param filledBeyond - how many samples of every channel are there, more than the number given; null where nobody fills it any more
 * @param restFrom - what somebody else tracks of the rest, if that begins before the frame given; may be waited for
 * @returns the same frames as `trackPitch` gives of the recording that the band is of; null where it is not filled to its end
 */
export function trackBand(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  durationSeconds: number,
  filledBeyond: (seen: number) => number | null,
  onProgress: (doneShare: number) => void = () => {},
  restFrom: (frame: number) => TrackPart | null = () => null,
): PitchTrack | null {
  const tracker = new BandTracker(sampleRateHz, channels.length, durationSeconds);
  const count = channels[0].length;
  let filled = 0;
  let rest: TrackPart | null = null;
  for (let seen = 0; seen < count && !tracker.isDone; ) {
    if (filled <= seen) {
      const known = filledBeyond(seen);
      if (known === null) return null;
      filled = known;
    }
    const next = Math.min(filled, seen + PIECE_SAMPLES);
    if (rest === null) {
      rest = restFrom(Math.ceil(next / sampleRateHz / FRAME_HOP_SECONDS));
      if (rest !== null) tracker.meet(rest);
    }
    tracker.take(channels.map((samples) => samples.subarray(seen, next)));
    seen = next;
    onProgress(seen / count);
  }
  return tracker.finish();
}
