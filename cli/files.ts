import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  openSync,
  readFileSync,
  readSync,
  statSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { globSync } from "tinyglobby";
import { AnalysisError, type ByteSource } from "../src/index.js";

/** A file that is read in pieces. It is never written to. */
export interface OpenFile extends ByteSource {
  close(): void;
}

/**
 * Opens a recording for reading. Looks at what the name stands for first: opening a pipe would wait for ever, and
 * reading a device may never end.
 *
 * @throws AnalysisError `file-unusable`
 */
export function openFile(path: string): OpenFile {
  return guarded(() => {
    const seen = statSync(path);
    if (!seen.isFile()) throw notRegular(seen.isDirectory());
    // The name may stand for something else by now: not waiting on open, and looking again, covers that.
    const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const status = fstatSync(descriptor);
    if (!status.isFile()) {
      closeSync(descriptor);
      throw notRegular(status.isDirectory());
    }
    return {
      sizeBytes: status.size,
      read: (offset, length) =>
        guarded(() => readPiece(descriptor, offset, Math.min(length, status.size - offset))),
      close: () => closeSync(descriptor),
    };
  });
}

/**
 * The files that a pattern such as `takes/short-*.wav` stands for, by name; a text without the characters of a pattern,
 * or one that a file is called by, is that file.
 */
export function filesMatching(pattern: string): string[] {
  if (!/[*?[\]{}]/.test(pattern) || existsSync(pattern)) return [pattern];
  return globSync(pattern, { expandDirectories: false, onlyFiles: true }).sort();
}

/**
 * Reads a whole text file (UTF-8, with or without a byte order mark).
 *
 * @throws AnalysisError `file-unusable`, also where the file is larger than `limitBytes` or is not text
 */
export function readTextFile(path: string, limitBytes: number): string {
  const file = openFile(path);
  try {
    const { sizeBytes } = file;
    if (sizeBytes > limitBytes)
      throw new AnalysisError("file-unusable", { reason: "too-large", sizeBytes, limitBytes });
    const bytes = file.read(0, sizeBytes);
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      throw unusable("not-text");
    }
  } finally {
    file.close();
  }
}

/** Where a file of this package lies, whether it runs from its source or as built. */
export function packageFile(...names: string[]): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json")) && dirname(folder) !== folder) folder = dirname(folder);
  return join(folder, ...names);
}

/** The version in package.json. */
export function packageVersion(): string {
  const { version } = JSON.parse(readFileSync(packageFile("package.json"), "utf8")) as { version: string };
  return version;
}

function readPiece(descriptor: number, offset: number, length: number): Uint8Array {
  const bytes = new Uint8Array(Math.max(0, length));
  let done = 0;
  while (done < bytes.length) {
    const count = readSync(descriptor, bytes, done, bytes.length - done, offset + done);
    if (count === 0) break;
    done += count;
  }
  return bytes.subarray(0, done);
}

function guarded<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof AnalysisError) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (["ENOENT", "ENOTDIR", "ENAMETOOLONG", "ERR_INVALID_ARG_VALUE"].includes(code))
      throw unusable("missing");
    if (["EACCES", "EPERM"].includes(code)) throw unusable("not-permitted");
    throw unusable("unreadable");
  }
}

function notRegular(isDirectory: boolean): AnalysisError {
  return unusable(isDirectory ? "directory" : "not-regular");
}

function unusable(
  reason: "missing" | "directory" | "not-regular" | "not-permitted" | "not-text" | "unreadable",
): AnalysisError {
  return new AnalysisError("file-unusable", { reason, sizeBytes: null, limitBytes: null });
}
