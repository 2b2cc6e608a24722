import type { ByteSource } from "../wav/ByteSource.js";
import type { MediaFormat } from "./MediaFormat.js";
import { type MpegFrame, mpegFrame } from "./MpegFrame.js";

// Writers pad a tag with zeros, some beyond the size it gives.
const MOST_PADDING_BYTES = 4096;
const HAS_FRAME_COUNT = 1;

/**
 * What an MP3 file says of itself; null where there is no MP3 from `start` on. Two frames are looked for, the second where the first
 * one says it is: eleven bits of one alone are found in any noise.
 */
export function mp3Format(source: ByteSource, start: number): MediaFormat | null {
  const padding = start === 0 ? 0 : source.read(start, MOST_PADDING_BYTES).findIndex((byte) => byte !== 0);
  const at = start + Math.max(0, padding);
  const frame = mpegFrame(source.read(at, 4));
  if (frame === null || mpegFrame(source.read(at + frame.sizeBytes, 4)) === null) return null;
  return {
    container: "MP3",
    codec: "MP3",
    promisedSeconds: promisedSeconds(source, at, frame),
    isWhole: true,
  };
}

/** By the count of frames that most encoders write into a first, silent one ("Xing" or "Info"; common practice, no standard). */
function promisedSeconds(source: ByteSource, at: number, frame: MpegFrame): number | null {
  const bytes = source.read(at + 4 + frame.sideBytes, 12);
  if (bytes.length < 12 || !["Xing", "Info"].includes(String.fromCharCode(...bytes.subarray(0, 4))))
    return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if ((view.getUint32(4) & HAS_FRAME_COUNT) === 0) return null;
  return (view.getUint32(8) * frame.sampleCount) / frame.sampleRateHz;
}
