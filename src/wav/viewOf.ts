import type { ByteSource } from "./ByteSource.js";

/** Up to `length` bytes of a source from `offset`, as a view (shorter at the end of the source). */
export function viewOf(source: ByteSource, offset: number, length: number): DataView {
  const available = Math.min(length, source.sizeBytes - offset);
  if (available <= 0) return new DataView(new ArrayBuffer(0));
  const bytes = source.read(offset, available);
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
