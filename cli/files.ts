import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { globSync } from "tinyglobby";
import { AnalysisError, type AnalysisErrorDetails, type ByteSource } from "../src/index.js";

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

/**
 * Looks whether a file can be written: its folder is there, and what stands in its place may go.
 *
 * @param inputs - files that are read; none of them is ever written over, by whatever name
 * @throws AnalysisError `output-unusable`
 */
export function lookAtOutput(path: string, inputs: readonly string[], force: boolean): void {
  writing(() => {
    if (!existsSync(dirname(path))) throw outputUnusable("no-folder");
    const seen = statSync(path, { throwIfNoEntry: false });
    if (seen === undefined) return;
    if (seen.isDirectory()) throw outputUnusable("directory");
    const isInput = inputs.some((input) => {
      const read = statSync(input, { throwIfNoEntry: false });
      return read !== undefined && read.ino === seen.ino && read.dev === seen.dev;
    });
    if (isInput) throw outputUnusable("input");
    if (!seen.isFile()) throw outputUnusable("not-regular");
    if (!force) throw outputUnusable("exists");
  });
}

/**
 * Writes a text file whole or not at all: beside its place first, then moved there at once. A file that came there in between
 * is left as it is, unless `force` is given.
 *
 * @throws AnalysisError `output-unusable`
 */
export function writeWhole(path: string, text: string, force: boolean): void {
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  // An interrupt waits until the file is whole, or gone.
  const wait = () => process.exit(130);
  process.once("SIGINT", wait);
  try {
    writing(() => {
      const descriptor = openSync(beside, "wx");
      try {
        writeFileSync(descriptor, text);
        fsyncSync(descriptor);
      } finally {
        closeSync(descriptor);
      }
      if (force) renameSync(beside, path);
      else placeNew(beside, path);
    });
  } finally {
    rmSync(beside, { force: true });
    process.off("SIGINT", wait);
  }
}

/** A link is refused where a file stands already, without a moment between looking and writing. Not all disks have links. */
function placeNew(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (
      !["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"].includes(
        (error as NodeJS.ErrnoException).code ?? "",
      )
    )
      throw error;
    copyFileSync(from, to, constants.COPYFILE_EXCL);
  }
}

function writing<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof AnalysisError) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (code === "EEXIST") throw outputUnusable("exists");
    if (["ENOENT", "ENOTDIR"].includes(code)) throw outputUnusable("no-folder");
    if (["EACCES", "EPERM", "EROFS"].includes(code)) throw outputUnusable("not-permitted");
    if (["ENOSPC", "EDQUOT", "EFBIG"].includes(code)) throw outputUnusable("no-space");
    throw outputUnusable("failed");
  }
}

function outputUnusable(reason: AnalysisErrorDetails["output-unusable"]["reason"]): AnalysisError {
  return new AnalysisError("output-unusable", { reason });
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
