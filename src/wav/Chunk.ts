import type { ByteSource } from "./ByteSource.js";
import { fourCharacterCode } from "./fourCharacterCode.js";
import type { RiffHeader } from "./readRiffHeader.js";
import type { Sizes64 } from "./Sizes64.js";
import { viewOf } from "./viewOf.js";

/** One chunk of the file by its eight-byte header; its body has not been read. */
export interface Chunk {
  readonly id: string;
  /** Where the header begins; the body is 8 bytes further on. */
  readonly byteOffset: number;
  /** Size of the body as promised, from the ds64 chunk where that one counts. */
  readonly sizeBytes: number;
}

/** A 32-bit size field of a chunk whose size is in ds64, or was never filled in. */
export const SIZE_UNSET = 0xffffffff;

/** Reads the chunk header at `byteOffset`, or null where fewer than eight bytes are left. */
export function readChunk(
  source: ByteSource,
  header: RiffHeader,
  sizes64: Sizes64,
  byteOffset: number,
): Chunk | null {
  const view = viewOf(source, byteOffset, 8);
  if (view.byteLength < 8) return null;
  const id = fourCharacterCode(view, 0);
  const size32 = view.getUint32(4, header.littleEndian);
  const sizeBytes = header.has64BitSizes && size32 === SIZE_UNSET ? (sizes64.get(id) ?? size32) : size32;
  return { id, byteOffset, sizeBytes };
}

// Only these may be taken for a chunk that begins where a pad byte should be.
const UNMISTAKABLE = new Set(["fmt ", "data", "LIST", "fact"]);

/**
 * Where the chunk after this one begins. Chunks of odd size are followed by a pad byte; writers that forget it are
 * known by one of the common chunk ids standing in its place.
 */
export function nextChunkOffset(source: ByteSource, chunk: Chunk): number {
  const end = chunk.byteOffset + 8 + chunk.sizeBytes;
  if (chunk.sizeBytes % 2 === 0) return end;
  if (end < source.sizeBytes && UNMISTAKABLE.has(fourCharacterCode(viewOf(source, end, 4), 0))) return end;
  return end + 1;
}
