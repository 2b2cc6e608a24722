import { closeSync, constants, fstatSync, openSync, readSync, statSync } from "node:fs";
import type { ByteSource } from "../../src/index.js";
import { reading, unusable } from "./fileErrors.js";

/** A file that is read in pieces. It is never written to. */
export interface OpenFile extends ByteSource {
  readonly descriptor: number;
  /** Which file it was when it was opened, and in which state. */
  readonly identity: string;
  /** @throws AnalysisError `file-unusable` where the file is no longer what it was when it was opened */
  refuseChanged(): void;
  close(): void;
}

/**
 * Opens a recording for reading. Looks at what the name stands for first: opening a pipe would wait for ever, and
 * reading a device may never end.
 *
 * @throws AnalysisError `file-unusable`
 */
export function openFile(path: string): OpenFile {
  return reading(() => {
    const seen = statSync(path);
    if (!seen.isFile()) throw unusable(seen.isDirectory() ? "directory" : "not-regular");
    // The name may stand for something else by now: not waiting on open, and looking again, covers that.
    const { O_RDONLY, O_NONBLOCK = 0, O_NOCTTY = 0 } = constants;
    const descriptor = openSync(path, O_RDONLY | O_NONBLOCK | O_NOCTTY);
    const opened = fstatSync(descriptor);
    if (!opened.isFile()) {
      closeSync(descriptor);
      throw unusable(opened.isDirectory() ? "directory" : "not-regular");
    }
    return {
      ...descriptorSource(descriptor, opened.size),
      descriptor,
      identity: [opened.dev, opened.ino, opened.size, opened.mtimeMs].join(" "),
      refuseChanged: () =>
        reading(() => {
          const now = fstatSync(descriptor);
          if (now.size !== opened.size || now.mtimeMs !== opened.mtimeMs) throw unusable("changed");
        }),
      close: () => closeSync(descriptor),
    };
  });
}

/**
 * What a descriptor stands for, as bytes read in pieces, each into the memory of the one before; a file that ends earlier than it
 * did is told as changed.
 */
export function descriptorSource(descriptor: number, sizeBytes: number): ByteSource {
  let memory = new Uint8Array(0);
  return {
    sizeBytes,
    read: (offset, length) => {
      const count = Math.max(0, Math.min(length, sizeBytes - offset));
      if (memory.length < count) memory = new Uint8Array(count);
      const piece = memory.subarray(0, count);
      reading(() => fill(piece, descriptor, offset));
      return piece;
    },
  };
}

/** Bytes from a place in a file; one that ends before is told as changed. */
export function readPiece(descriptor: number, offset: number, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  fill(bytes, descriptor, offset);
  return bytes;
}

function fill(bytes: Uint8Array, descriptor: number, offset: number): void {
  for (let done = 0; done < bytes.length; ) {
    const count = readSync(descriptor, bytes, done, bytes.length - done, offset + done);
    if (count === 0) throw unusable("changed");
    done += count;
  }
}
