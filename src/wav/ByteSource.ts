/**
 * Bytes that are read in pieces from any place: a file on disk, a file picked in a page, or bytes in memory.
 *
 * @example
 * ```ts
 * const source: ByteSource = { sizeBytes: 4, read: (offset, length) => bytes.subarray(offset, offset + length) };
 * ```
 */
export interface ByteSource {
  /** Size in bytes; may be beyond 4 GiB. */
  readonly sizeBytes: number;
  /**
   * Reads bytes `[offset, offset + length)`, shorter only at the end of the source.
   *
   * Whoever reads must be done with the bytes before the next call: a source may hand out the same buffer again.
   */
  read(offset: number, length: number): Uint8Array;
}
