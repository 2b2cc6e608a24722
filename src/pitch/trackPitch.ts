import type { AudioRecording } from "../audio/AudioRecording.js";
import { withoutNonFinite } from "../audio/withoutNonFinite.js";
import { Decimator } from "../signal/Decimator.js";
import { FRAME_HOP_SECONDS, FrameTracker } from "./FrameTracker.js";
import type { PitchTrack } from "./PitchTrack.js";

const PIECE_FRAMES = 65_536;
const SILENCE_DB = -200;
/** Frames this far apart are compared; they share half of their samples or more. */
const STRIDE_FRAMES = 5;
/** Where both have one pitch, or none, and differ by no more than this, the frames between lie on a straight line. */
const SAME_PITCH = (5 / 1200) * Math.LN2; // 5 cents
const SAME_CLARITY = 0.1;
const SAME_LEVEL_DB = 1;

/**
 * Frame-wise fundamental of a recording in one pass over its samples, at a 10 ms hop.
 *
 * Where a sound is steady, within 5 cents and 1 dB from a frame to the fifth after it, the four between are not looked at
 * but interpolated. A wheel that turns 3 times a second and stays within that moves the pitch by less than 6 cents, and a
 * straight line over 50 ms leaves out 0.6 cent of it at most.
 *
 * @param onPiece - sees every piece of full-rate samples before it is used, in memory that the next piece is put in, and the share of the recording read so far
 * @param onBand - sees what is left of every piece after decimation (see `Decimator`), the last ones beyond the end
 * @returns frames from the first to the last sample; memory grows by 1.2 kB a second of sound
 */
export function trackPitch(
  recording: AudioRecording,
  onPiece: (channels: Float32Array[], doneShare: number) => void = () => {},
  onBand: (channels: Float32Array[]) => void = () => {},
): PitchTrack {
  const decimators = Array.from(
    { length: recording.channelCount },
    () => new Decimator(recording.sampleRateHz),
  );
  const rate = decimators[0].outputRateHz;
  const tracker = new FrameTracker(rate);
  const half = tracker.frameSamples / 2;
  const frameCount = Math.floor(recording.durationSeconds / FRAME_HOP_SECONDS) + 1;
  // NaN: not looked at yet.
  const frequencyHz = new Float32Array(frameCount).fill(Number.NaN);
  const clarity = new Float32Array(frameCount);
  const levelDb = new Float32Array(frameCount).fill(SILENCE_DB);
  let held: Float32Array[] = decimators.map(() => new Float32Array(half));
  let heldStart = -half;
  // Everything up to this frame is settled.
  let settled = -1;

  const startOf = (frame: number) => Math.round(frame * FRAME_HOP_SECONDS * rate) - half - heldStart;
  const isThere = (frame: number) => startOf(frame) + tracker.frameSamples <= held[0].length;
  const look = (frame: number) => {
    if (!Number.isNaN(frequencyHz[frame])) return;
    const found = tracker.track(held, startOf(frame));
    frequencyHz[frame] = found.frequencyHz;
    clarity[frame] = found.clarity;
    if (found.power > 0) levelDb[frame] = Math.max(SILENCE_DB, 10 * Math.log10(found.power));
  };
  const isSteady = (from: number, to: number) =>
    Math.abs(frequencyHz[to] - frequencyHz[from]) <= SAME_PITCH * frequencyHz[from] &&
    Math.abs(clarity[to] - clarity[from]) <= SAME_CLARITY &&
    Math.abs(levelDb[to] - levelDb[from]) <= SAME_LEVEL_DB;
  const interpolate = (from: number, to: number) => {
    for (let frame = from + 1; frame < to; frame++) {
      if (!Number.isNaN(frequencyHz[frame])) continue;
      const share = (frame - from) / (to - from);
      frequencyHz[frame] = frequencyHz[from] + share * (frequencyHz[to] - frequencyHz[from]);
      clarity[frame] = clarity[from] + share * (clarity[to] - clarity[from]);
      levelDb[frame] = levelDb[from] + share * (levelDb[to] - levelDb[from]);
    }
  };

  const settle = () => {
    while (settled + 1 < frameCount) {
      const ahead = settled + STRIDE_FRAMES;
      if (settled >= 0 && ahead < frameCount) {
        if (!isThere(ahead)) break;
        look(ahead);
        if (isSteady(settled, ahead)) {
          interpolate(settled, ahead);
          settled = ahead;
          continue;
        }
      }
      if (!isThere(settled + 1)) break;
      // One by one, so that where the long steps begin is for the sound to say and not for the count of frames.
      look(settled + 1);
      settled++;
    }
  };

  const take = (added: Float32Array[]) => {
    held = held.map((old, channel) => joined(old, added[channel]));
    settle();
    const used = Math.max(0, Math.min(held[0].length, startOf(settled + 1)));
    held = held.map((samples) => samples.slice(used));
    heldStart += used;
  };

  const clean = recording.isBounded === true ? (samples: Float32Array) => samples : withoutNonFinite;
  // All that see a piece are done with it before the next one is read.
  let memory: Float32Array[] | undefined;
  for (let start = 0; start < recording.frameCount; start += PIECE_FRAMES) {
    const piece = recording.read(start, PIECE_FRAMES, memory);
    memory ??= piece;
    onPiece(piece, Math.min(1, (start + PIECE_FRAMES) / recording.frameCount));
    const band = piece.map((samples, channel) => decimators[channel].push(clean(samples)));
    onBand(band);
    take(band);
  }
  const rest = decimators.map((decimator) => decimator.finish());
  onBand(rest);
  take(rest);
  take(decimators.map(() => new Float32Array(tracker.frameSamples)));
  return { hopSeconds: FRAME_HOP_SECONDS, frequencyHz, clarity, levelDb };
}

function joined(first: Float32Array, second: Float32Array): Float32Array {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
