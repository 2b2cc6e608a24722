import { Decimator } from "../signal/Decimator.js";
import type { AudioRecording } from "./AudioRecording.js";
import { withoutNonFinite } from "./withoutNonFinite.js";

const PIECE_FRAMES = 65_536;

/**
 * Reads a recording once, a piece at each step, and decimates each channel to the analysis band. Between two steps others may do something:
 * whoever reads must be asked for the next.
 *
 * @param onPiece - sees every piece of full-rate samples before it is used, in memory that the next piece is put in, and the share of the recording read so far
 * @param onBand - gets what is left of every piece after decimation (see `Decimator`), the last ones when the recording has ended
 */
export function* decimatedPieces(
  recording: AudioRecording,
  onPiece: (channels: Float32Array[], doneShare: number) => void,
  onBand: (channels: Float32Array[]) => void,
): Generator<void, void> {
  const decimators = Array.from(
    { length: recording.channelCount },
    () => new Decimator(recording.sampleRateHz),
  );
  const clean = recording.isBounded === true ? (samples: Float32Array) => samples : withoutNonFinite;
  // All that see a piece are done with it before the next one is read.
  let memory: Float32Array[] | undefined;
  for (let start = 0; start < recording.frameCount; start += PIECE_FRAMES) {
    const piece = recording.read(start, PIECE_FRAMES, memory);
    memory ??= piece;
    onPiece(piece, Math.min(1, (start + PIECE_FRAMES) / recording.frameCount));
    onBand(piece.map((samples, channel) => decimators[channel].push(clean(samples))));
    yield;
  }
  onBand(decimators.map((decimator) => decimator.finish()));
}
