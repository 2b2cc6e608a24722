import type { DecodingNote } from "../audio/AudioRecording.js";
import type { ByteSource } from "./ByteSource.js";
import { type Chunk, nextChunkOffset, readChunk, SIZE_UNSET } from "./Chunk.js";
import type { RiffHeader } from "./readRiffHeader.js";
import type { Sizes64 } from "./Sizes64.js";

/** Where the samples are, and whether the chunk's own size had to be set aside. */
export interface DataExtent {
  readonly byteOffset: number;
  readonly sizeBytes: number;
  readonly note: DecodingNote | null;
}

// sox writes this size into a pipe, where it cannot go back to fill in the true one (measured with 14.4.2).
const SIZE_OF_PIPED_SOX = 0x7ffff000;
const UNSET_64 = 2 ** 64;

/**
 * Whether whole chunks with readable ids follow one another from `byteOffset` right to the end of the source.
 * Samples do this by chance about once in 10^8 files; it tells an empty data chunk from one whose size was never set.
 */
function chunksFillTheRest(
  source: ByteSource,
  header: RiffHeader,
  sizes64: Sizes64,
  byteOffset: number,
  maximumCount: number,
): boolean {
  let offset = byteOffset;
  for (let count = 0; count < maximumCount; count++) {
    // The last chunk's pad byte is often left out, so that its end may lie one byte beyond the file.
    if (offset === source.sizeBytes || (count > 0 && offset === source.sizeBytes + 1)) return true;
    const chunk = readChunk(source, header, sizes64, offset);
    if (!chunk || !/^[\x20-\x7e]{4}$/.test(chunk.id)) return false;
    offset = nextChunkOffset(source, chunk);
  }
  return false;
}

/**
 * Decides which bytes of the file are samples.
 *
 * A size of 0 is believed when nothing but whole chunks follows. Otherwise 0 and 0xFFFFFFFF are what a recorder
 * leaves that lost power, or a program that wrote into a pipe: all that follows is samples. So it is when a file
 * over 4 GiB without 64-bit sizes holds its size modulo 2^32 (from memory, no source).
 */
export function dataExtent(
  source: ByteSource,
  header: RiffHeader,
  sizes64: Sizes64,
  chunk: Chunk,
  maximumCount: number,
): DataExtent {
  const byteOffset = chunk.byteOffset + 8;
  const foundBytes = Math.max(0, source.sizeBytes - byteOffset);
  const promisedBytes = chunk.sizeBytes;
  const values = { byteOffset, promisedBytes, foundBytes };
  const believedEmpty =
    promisedBytes === 0 && chunksFillTheRest(source, header, sizes64, byteOffset, maximumCount);
  const unset =
    (promisedBytes === 0 && !believedEmpty) ||
    (promisedBytes > foundBytes &&
      (promisedBytes === SIZE_UNSET || promisedBytes === SIZE_OF_PIPED_SOX || promisedBytes === UNSET_64)) ||
    (promisedBytes > 0 && foundBytes > promisedBytes && (foundBytes - promisedBytes) % 2 ** 32 === 0);
  if (unset) return { byteOffset, sizeBytes: foundBytes, note: { code: "wav-size-unset", values } };
  if (promisedBytes > foundBytes) {
    return { byteOffset, sizeBytes: foundBytes, note: { code: "wav-truncated", values } };
  }
  return { byteOffset, sizeBytes: promisedBytes, note: null };
}
