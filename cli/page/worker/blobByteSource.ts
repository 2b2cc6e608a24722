import type { ByteSource } from "../../../src/index.js";

/** Read from the disk at once; the analysis asks for 64 KiB at a time. */
const BLOCK_BYTES = 1 << 22;
/** A smaller recording is read as a whole, since the analysis goes over it several times. */
const WHOLE_BYTES = 1 << 27;

/**
 * The bytes of a file that was picked in the page. A large one is never in memory as a whole.
 *
 * @throws DOMException where the file has gone or was changed since it was picked
 */
export function blobByteSource(blob: Blob): ByteSource {
  const reader = new FileReaderSync();
  const blockBytes = blob.size <= WHOLE_BYTES ? Math.max(1, blob.size) : BLOCK_BYTES;
  let start = 0;
  let block = new Uint8Array(0);
  return {
    sizeBytes: blob.size,
    read: (offset, length) => {
      const from = Math.min(offset, blob.size);
      const end = Math.min(from + length, blob.size);
      if (from < start || end > start + block.length) {
        start = blockBytes === blob.size ? 0 : from;
        block = new Uint8Array(
          reader.readAsArrayBuffer(blob.slice(start, Math.max(end, start + blockBytes))),
        );
      }
      return block.subarray(from - start, end - start);
    },
  };
}
