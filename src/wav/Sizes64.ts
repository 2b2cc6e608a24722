import type { ByteSource } from "./ByteSource.js";
import { fourCharacterCode } from "./fourCharacterCode.js";
import { viewOf } from "./viewOf.js";

/** The 64-bit chunk sizes of a ds64 chunk, by chunk id. A size beyond 2^53 is rounded to the nearest number. */
export type Sizes64 = ReadonlyMap<string, number>;

// A table this long would name more chunks than a file may have; a damaged length must not be followed.
const MAXIMUM_TABLE_ENTRIES = 1000;

function uint64(view: DataView, offset: number): number {
  return view.getUint32(offset + 4, true) * 2 ** 32 + view.getUint32(offset, true);
}

/**
 * Reads the body of a ds64 chunk: RIFF size, data size and sample count of 64 bits each, then a table of further
 * chunks that are too long for 32 bits (EBU Tech 3306, ITU-R BS.2088). RF64 and BW64 are little-endian only.
 */
export function readSizes64(source: ByteSource, bodyOffset: number, sizeBytes: number): Sizes64 {
  const view = viewOf(source, bodyOffset, Math.min(sizeBytes, 28 + 12 * MAXIMUM_TABLE_ENTRIES));
  const sizes = new Map<string, number>();
  if (view.byteLength < 28) return sizes;
  const entryCount = view.getUint32(24, true);
  for (let entry = 0, at = 28; entry < entryCount && at + 12 <= view.byteLength; entry++, at += 12) {
    sizes.set(fourCharacterCode(view, at), uint64(view, at + 4));
  }
  return sizes.set("data", uint64(view, 8));
}
