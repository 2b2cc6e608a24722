import { AnalysisError } from "../errors.js";
import type { ByteSource } from "../wav/ByteSource.js";
import type { MediaCodec, MediaFormat } from "./MediaFormat.js";

// Every stream of a file begins with a page of its own, before any other page (RFC 3533).
const MOST_STREAMS = 16;
const HEADER_BYTES = 27;
const LARGEST_PAGE_BYTES = 65_307;
const BEGINS_STREAM = 2;
const ENDS_STREAM = 4;

/** How a stream of each codec begins: Vorbis I 4.2.1, RFC 7845 5.1, and the mapping of RFC 9639 10.1. */
const BEGINNINGS: readonly (readonly [string, MediaCodec])[] = [
  ["\u0001vorbis", "Vorbis"],
  ["OpusHead", "Opus"],
  ["\u007fFLAC", "FLAC"],
];

/**
 * What an Ogg file says of itself: the codec of its first stream of sound, and whether its last page is there.
 *
 * @throws AnalysisError `media-unreadable` where none of its streams is sound that is known here
 */
export function oggFormat(source: ByteSource): MediaFormat {
  let offset = 0;
  for (let count = 0; count < MOST_STREAMS; count++) {
    const page = pageAt(source, offset);
    if (page === null || (page.flags & BEGINS_STREAM) === 0) break;
    const text = String.fromCharCode(...source.read(page.from, 8));
    const found = BEGINNINGS.find(([beginning]) => text.startsWith(beginning));
    if (found !== undefined) {
      return { container: "OGG", codec: found[1], promisedSeconds: null, isWhole: endsWhole(source) };
    }
    offset = page.to;
  }
  throw new AnalysisError("media-unreadable", { reason: "no-sound", container: "OGG" });
}

interface Page {
  readonly flags: number;
  readonly from: number;
  readonly to: number;
}

function pageAt(source: ByteSource, offset: number): Page | null {
  const header = source.read(offset, HEADER_BYTES).slice();
  if (header.length < HEADER_BYTES || String.fromCharCode(...header.subarray(0, 4)) !== "OggS") return null;
  const [flags, segmentCount] = [header[5] ?? 0, header[26] ?? 0];
  const from = offset + HEADER_BYTES + segmentCount;
  const bodyBytes = source.read(offset + HEADER_BYTES, segmentCount).reduce((sum, byte) => sum + byte, 0);
  return { flags, from, to: from + bodyBytes };
}

/** Whether a page that ends a stream ends the file, too. */
function endsWhole(source: ByteSource): boolean {
  const start = Math.max(0, source.sizeBytes - LARGEST_PAGE_BYTES);
  const end = source.read(start, LARGEST_PAGE_BYTES).slice();
  for (let i = end.length - HEADER_BYTES; i >= 0; i--) {
    if (end[i] !== 0x4f || end[i + 1] !== 0x67) continue;
    const page = pageAt(source, start + i);
    if (page !== null && page.to === source.sizeBytes) return (page.flags & ENDS_STREAM) !== 0;
  }
  return false;
}
