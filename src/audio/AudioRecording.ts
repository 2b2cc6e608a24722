import type { RecordingEncoding } from "./RecordingEncoding.js";

/**
 * A recording that is read in pieces, so that its length does not decide how much memory is needed.
 *
 * Samples are linear amplitude, +-1 at digital full scale (floating-point files may go beyond). Reading is
 * synchronous; a page runs the analysis in a worker.
 */
export interface AudioRecording {
  /** Sample rate in hertz, 8,000 to 384,000. */
  readonly sampleRateHz: number;
  /** Number of channels, 1 to 32. */
  readonly channelCount: number;
  /** Number of sample frames (one frame holds one sample of every channel). */
  readonly frameCount: number;
  /** `frameCount / sampleRateHz`. */
  readonly durationSeconds: number;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding;
  /** True where every sample is a number of at most 1 in size, as whole numbers in a file are; not there where that isn't known. */
  readonly isBounded?: boolean;
  /** What the decoder had to put up with (a truncated file, say), in the order met. */
  readonly decodingNotes: readonly DecodingNote[];
  /**
   * Reads frames `[startFrame, startFrame + frameCount)`.
   *
   * @returns one array a channel, all of the same length; shorter than asked only at the end of the recording.
   * Values that are not finite in the file are handed on as they are.
   *
   * @param into - arrays, one a channel, that may be filled and handed out again where they are long enough: who goes through a
   * whole recording piece by piece needs no fresh memory for each
   */
  read(startFrame: number, frameCount: number, into?: readonly Float32Array[]): Float32Array[];
}

/** Something odd in the file that did not stop it from being read. */
export interface DecodingNote {
  readonly code: "wav-truncated" | "wav-size-unset" | "wav-partial-frame" | "lossy-codec" | "media-damaged";
  /** What to word the note with: bytes promised and found, byte offset; container and codec. */
  readonly values: Readonly<Record<string, number | string>>;
}
