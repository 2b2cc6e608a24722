import { AnalysisError } from "../errors.js";
import type { ByteSource } from "../wav/ByteSource.js";
import { flacFormat } from "./flacFormat.js";
import type { MediaFormat } from "./MediaFormat.js";
import { mp3Format } from "./mp3Format.js";
import { mp4Format } from "./mp4Format.js";
import { oggFormat } from "./oggFormat.js";

// One tag is usual; some programs put a second one in front.
const MOST_TAGS = 4;

/**
 * What container and codec a recording that is not WAV has, by its bytes alone: a name says nothing, and a playlist
 * called `take.m4a` must not pass for sound.
 *
 * Sources: ISO/IEC 14496-12 (MP4), ISO/IEC 11172-3 (MP3), id3.org's ID3v2.4 structure, RFC 9639 (FLAC), RFC 3533 (Ogg).
 *
 * @returns null for anything else, WAV among it
 * @throws AnalysisError `media-unreadable` where the container is one of these, but what is in it can't be sound
 * that is read here
 * @example
 * ```ts
 * sniffMedia(memoryByteSource(bytes)); // { container: "MP4", codec: "AAC", promisedSeconds: null, isWhole: true }
 * ```
 */
export function sniffMedia(source: ByteSource): MediaFormat | null {
  const start = afterTags(source);
  const first = textOf(source, start, 4);
  if (first === "fLaC") return flacFormat(source, start);
  const mp3 = mp3Format(source, start);
  if (mp3 !== null) return mp3;
  if (start > 0) throw new AnalysisError("media-unreadable", { reason: "no-sound", container: "MP3" });
  if (first === "OggS") return oggFormat(source);
  if (textOf(source, 4, 4) === "ftyp") return mp4Format(source);
  return null;
}

/** Where the sound begins behind ID3v2 tags; 0 where there is none. Their sizes are written in sevens of bits. */
function afterTags(source: ByteSource): number {
  let offset = 0;
  for (let tag = 0; tag < MOST_TAGS && textOf(source, offset, 3) === "ID3"; tag++) {
    const bytes = source.read(offset, 10);
    if (bytes.length < 10) break;
    const size = bytes.slice(6, 10).reduce((sum, byte) => sum * 0x80 + (byte & 0x7f), 0);
    const footerBytes = ((bytes[5] ?? 0) & 0x10) === 0 ? 0 : 10;
    offset += 10 + size + footerBytes;
  }
  return offset;
}

function textOf(source: ByteSource, offset: number, length: number): string {
  if (offset + length > source.sizeBytes) return "";
  return String.fromCharCode(...source.read(offset, length));
}
