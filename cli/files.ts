import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { globSync } from "tinyglobby";
import { AnalysisError, type ByteSource, logLimits, startsLog } from "../src/index.js";
import { notRegular, outputUnusable, readFault, unusable, writeFault } from "./fileFaults.js";

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
  const bytes = readWhole(path, limitBytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw unusable("not-text");
  }
}

/**
 * Reads a log of takes. Bytes that are no UTF-8 are read as U+FFFD: one damaged line must not cost the others.
 *
 * @throws AnalysisError `file-unusable`
 */
export function readLogFile(path: string): string {
  return new TextDecoder().decode(readWhole(path, logLimits.fileBytes));
}

function readWhole(path: string, limitBytes: number): Uint8Array {
  const file = openFile(path);
  try {
    const { sizeBytes } = file;
    if (sizeBytes > limitBytes)
      throw new AnalysisError("file-unusable", { reason: "too-large", sizeBytes, limitBytes });
    return file.read(0, sizeBytes);
  } finally {
    file.close();
  }
}

/**
 * When a file was last written to, by the clock on the wall here: `2026-03-01T14:30:05`.
 *
 * @throws AnalysisError `file-unusable`
 */
export function fileMoment(path: string): string {
  return guarded(() => {
    const { mtime } = statSync(path);
    return new Date(mtime.getTime() - mtime.getTimezoneOffset() * 60_000).toISOString().slice(0, 19);
  });
}

/**
 * Looks whether lines can be appended to a log: it is not there yet, is empty, or begins as a log of takes does.
 *
 * @param inputs - files that are read; nothing is ever appended to one of them
 * @throws AnalysisError `output-unusable`
 */
export function lookAtLog(path: string, inputs: readonly string[]): void {
  writing(() => {
    const seen = standingAt(path, inputs);
    if (seen === undefined) return;
    if (!seen.isFile()) throw outputUnusable("not-regular");
    opened(path, "r+", checkLogStart);
  });
}

/**
 * Appends one line to a log of takes, made if it is not there, and sees it onto the disk: one write at the end of the file, whoever else
 * appends meanwhile. Where the last line has no end (power was lost while it was written), a line end comes first, so that no other line is
 * lost. What a full disk took of it is taken back.
 *
 * @param line - with its line end
 * @throws AnalysisError `output-unusable`
 */
export function appendLogLine(path: string, line: string): void {
  writing(() => {
    opened(path, "a+", (descriptor) => {
      checkLogStart(descriptor);
      const { size } = fstatSync(descriptor);
      const isCut = size > 0 && readPiece(descriptor, size - 1, 1)[0] !== LINE_FEED;
      const bytes = new TextEncoder().encode(isCut ? `\n${line}` : line);
      const written = writeSync(descriptor, bytes);
      if (written < bytes.length) {
        if (fstatSync(descriptor).size === size + written) ftruncateSync(descriptor, size);
        throw outputUnusable("no-space");
      }
      fsyncSync(descriptor);
    });
  });
}

const LINE_FEED = 10;

function checkLogStart(descriptor: number): void {
  const { size } = fstatSync(descriptor);
  if (size === 0) return;
  if (size >= logLimits.fileBytes) throw outputUnusable("log-full");
  // A character has up to four bytes; of a longer line the beginning is no line of ours either.
  const start = new TextDecoder().decode(
    readPiece(descriptor, 0, Math.min(size, 4 * logLimits.lineCharacters)),
  );
  if (!startsLog(start.split("\n", 1)[0]!)) throw outputUnusable("not-a-log");
}

/**
 * Looks whether a file can be written: its folder is there, and what stands in its place may go.
 *
 * @param inputs - files that are read; none of them is ever written over, by whatever name
 * @throws AnalysisError `output-unusable`
 */
export function lookAtOutput(path: string, inputs: readonly string[], force: boolean): void {
  writing(() => {
    const seen = standingAt(path, inputs);
    if (seen === undefined) return;
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
      opened(beside, "wx", (descriptor) => {
        writeFileSync(descriptor, text);
        fsyncSync(descriptor);
      });
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

/** What stands where something is to be written: no folder, and by no name one of the files that are read. */
function standingAt(path: string, inputs: readonly string[]): Stats | undefined {
  if (!existsSync(dirname(path))) throw outputUnusable("no-folder");
  const seen = statSync(path, { throwIfNoEntry: false });
  if (seen?.isDirectory()) throw outputUnusable("directory");
  const isInput = inputs.some((input) => {
    const read = statSync(input, { throwIfNoEntry: false });
    return read !== undefined && read.ino === seen?.ino && read.dev === seen.dev;
  });
  if (isInput) throw outputUnusable("input");
  return seen;
}

function opened(path: string, flags: string, work: (descriptor: number) => void): void {
  const descriptor = openSync(path, flags);
  try {
    work(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

function writing<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    throw writeFault(error);
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
    throw readFault(error);
  }
}
