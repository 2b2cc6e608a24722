import type { ByteSource } from "../wav/ByteSource.js";
import type { MediaFormat } from "./MediaFormat.js";

/** What a FLAC file says of itself: STREAMINFO is its first block (RFC 9639, 8.2). A count of 0 means not known. */
export function flacFormat(source: ByteSource, start: number): MediaFormat {
  const bytes = source.read(start + 18, 8);
  let promisedSeconds: number | null = null;
  if (bytes.length === 8) {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const sampleRateHz = view.getUint32(0) >>> 12;
    const sampleCount = (view.getUint8(3) & 0x0f) * 2 ** 32 + view.getUint32(4);
    if (sampleRateHz > 0 && sampleCount > 0) promisedSeconds = sampleCount / sampleRateHz;
  }
  return { container: "FLAC", codec: "FLAC", promisedSeconds, isWhole: true };
}
