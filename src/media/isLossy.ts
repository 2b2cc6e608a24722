import type { MediaCodec } from "./MediaFormat.js";

const LOSSLESS: readonly MediaCodec[] = ["ALAC", "FLAC", "PCM"];

/** Whether a codec leaves something of the sound out. */
export function isLossy(codec: MediaCodec): boolean {
  return !LOSSLESS.includes(codec);
}
