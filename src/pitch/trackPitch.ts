import type { AudioRecording } from "../audio/AudioRecording.js";
import { decimatedPieces } from "../audio/decimatedPieces.js";
import { decimationFactor } from "../signal/Decimator.js";
import { BandTracker } from "./BandTracker.js";
import type { PitchTrack } from "./PitchTrack.js";

/**
 * Frame-wise fundamental of a recording in one pass over its samples, at a 10 ms hop (see `BandTracker`).
 *
 * @param onPiece - sees every piece of full-rate samples before it is used, in memory that the next piece is put in, and the share of the recording read so far
 * @param onBand - sees what is left of every piece after decimation (see `Decimator`), the last ones when the recording has ended
 * @returns frames from the first to the last sample; memory grows by 1.2 kB a second of sound
 */
export function trackPitch(
  recording: AudioRecording,
  onPiece: (channels: Float32Array[], doneShare: number) => void = () => {},
  onBand: (channels: Float32Array[]) => void = () => {},
): PitchTrack {
  const { sampleRateHz, channelCount, durationSeconds } = recording;
  const tracker = new BandTracker(
    sampleRateHz / decimationFactor(sampleRateHz),
    channelCount,
    durationSeconds,
  );
  const pieces = decimatedPieces(recording, onPiece, (band) => {
    onBand(band);
    tracker.take(band);
  });
  while (!pieces.next().done);
  return tracker.finish();
}
