import type { AudioRecording } from "../audio/AudioRecording.js";
import { withoutNonFinite } from "../audio/withoutNonFinite.js";
import { Decimator } from "../signal/Decimator.js";
import { FRAME_HOP_SECONDS, FrameTracker } from "./FrameTracker.js";
import type { PitchTrack } from "./PitchTrack.js";

const PIECE_FRAMES = 65_536;
const SILENCE_DB = -200;

/**
 * Frame-wise fundamental of a recording in one pass over its samples, at a 10 ms hop.
 *
 * @param onPiece - sees every piece of full-rate samples before it is used, and the share of the recording read so far
 * @returns frames from the first to the last sample; memory grows by 1.2 kB a second of sound
 */
export function trackPitch(
  recording: AudioRecording,
  onPiece: (channels: Float32Array[], doneShare: number) => void = () => {},
): PitchTrack {
  const decimators = Array.from(
    { length: recording.channelCount },
    () => new Decimator(recording.sampleRateHz),
  );
  const rate = decimators[0].outputRateHz;
  const tracker = new FrameTracker(rate);
  const half = tracker.frameSamples / 2;
  const frameCount = Math.floor(recording.durationSeconds / FRAME_HOP_SECONDS) + 1;
  const frequencyHz = new Float32Array(frameCount);
  const clarity = new Float32Array(frameCount);
  const levelDb = new Float32Array(frameCount).fill(SILENCE_DB);
  let held: Float32Array[] = decimators.map(() => new Float32Array(half));
  let heldStart = -half;
  let frame = 0;

  const take = (added: Float32Array[]) => {
    held = held.map((old, channel) => joined(old, added[channel]));
    for (; frame < frameCount; frame++) {
      const start = Math.round(frame * FRAME_HOP_SECONDS * rate) - half - heldStart;
      if (start + tracker.frameSamples > held[0].length) break;
      const found = tracker.track(held, start);
      frequencyHz[frame] = found.frequencyHz;
      clarity[frame] = found.clarity;
      if (found.power > 0) levelDb[frame] = Math.max(SILENCE_DB, 10 * Math.log10(found.power));
    }
    const next = Math.round(frame * FRAME_HOP_SECONDS * rate) - half - heldStart;
    const used = Math.max(0, Math.min(held[0].length, next));
    held = held.map((samples) => samples.slice(used));
    heldStart += used;
  };

  for (let start = 0; start < recording.frameCount; start += PIECE_FRAMES) {
    const piece = recording.read(start, PIECE_FRAMES);
    onPiece(piece, Math.min(1, (start + PIECE_FRAMES) / recording.frameCount));
    take(piece.map((samples, channel) => decimators[channel].push(withoutNonFinite(samples))));
  }
  take(decimators.map((decimator) => decimator.finish()));
  take(decimators.map(() => new Float32Array(tracker.frameSamples)));
  return { hopSeconds: FRAME_HOP_SECONDS, frequencyHz, clarity, levelDb };
}

function joined(first: Float32Array, second: Float32Array): Float32Array {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
