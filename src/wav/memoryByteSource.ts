import type { ByteSource } from "./ByteSource.js";

/**
 * Wraps bytes in memory as a source for {@link openWav}. Nothing is copied.
 *
 * @example
 * ```ts
 * const recording = openWav(memoryByteSource(new Uint8Array(await file.arrayBuffer())));
 * ```
 */
export function memoryByteSource(bytes: Uint8Array): ByteSource {
  return {
    sizeBytes: bytes.length,
    read: (offset, length) => bytes.subarray(offset, offset + length),
  };
}
