import { BandTracker } from "./BandTracker.js";
import type { TrackPart } from "./TrackPart.js";

const PIECE_SAMPLES = 8192;

/**
 * Tracks a band that is there from some frame to its end, a second at each step, for somebody who tracks what comes before (see
 * `trackBand`).
 *
 * @param channels - the whole band, one array a channel
 * @param sampleRateHz - after decimation
 * @param durationSeconds - of the whole recording
 */
export function* trackRest(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  durationSeconds: number,
  firstFrame: number,
): Generator<void, TrackPart> {
  const tracker = new BandTracker(sampleRateHz, channels.length, durationSeconds, firstFrame);
  for (let seen = tracker.firstSample; seen < channels[0].length; seen += PIECE_SAMPLES) {
    tracker.take(channels.map((samples) => samples.subarray(seen, seen + PIECE_SAMPLES)));
    yield;
  }
  return tracker.finish();
}
