import { AnalysisError } from "../errors.js";
import type { ByteSource } from "./ByteSource.js";
import { nextChunkOffset, readChunk } from "./Chunk.js";
import { type DataExtent, dataExtent } from "./DataExtent.js";
import { readRiffHeader } from "./readRiffHeader.js";
import { readWavFormat } from "./readWavFormat.js";
import { readSizes64, type Sizes64 } from "./Sizes64.js";
import type { WavFormat } from "./WavFormat.js";

/** The two things of a WAV file that are needed to decode it. */
export interface WavLayout {
  readonly format: WavFormat;
  readonly data: DataExtent;
}

// Far more than any writer makes; a file of nothing but empty chunks must not keep the reader busy.
const MAXIMUM_CHUNK_COUNT = 10_000;

/**
 * Walks the chunks until format and samples are known, in whatever order they come. Only the eight bytes of each
 * chunk header are read, and the few bytes of fmt and ds64. The first of several fmt chunks counts, and the first
 * data chunk that is not empty. What comes after both are known is never looked at.
 */
export function locateChunks(source: ByteSource): WavLayout {
  const header = readRiffHeader(source);
  let sizes64: Sizes64 = new Map();
  let format: WavFormat | null = null;
  let data: DataExtent | null = null;
  let offset = 12;
  for (let count = 0; count < MAXIMUM_CHUNK_COUNT; count++) {
    const chunk = readChunk(source, header, sizes64, offset);
    if (!chunk) break;
    if (chunk.id === "ds64" && header.has64BitSizes) {
      sizes64 = readSizes64(source, offset + 8, chunk.sizeBytes);
    } else if (chunk.id === "fmt " && !format) {
      format = readWavFormat(source, offset + 8, chunk.sizeBytes, header.littleEndian);
    } else if (chunk.id === "data") {
      // An empty data chunk that was believed is followed by whole chunks to the end: no need to look twice.
      if (!data || (data.sizeBytes === 0 && chunk.sizeBytes > 0)) {
        data = dataExtent(source, header, sizes64, chunk, MAXIMUM_CHUNK_COUNT);
      }
    }
    if (format && data && data.sizeBytes > 0) break;
    // Samples whose size was unset or cut off reach to the end: nothing can follow them.
    offset = data?.note ? source.sizeBytes : nextChunkOffset(source, chunk);
  }
  const byteOffset = Math.min(offset, source.sizeBytes);
  if (!format) throw new AnalysisError("wav-no-format", { byteOffset });
  if (!data) throw new AnalysisError("wav-no-data", { byteOffset });
  return { format, data };
}
