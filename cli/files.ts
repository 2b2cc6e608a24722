import { randomUUID } from "node:crypto";
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, delimiter, dirname, isAbsolute, join } from "node:path";
import { fileURLToPath } from "node:url";
import { globSync } from "tinyglobby";
import { AnalysisError, type ByteSource } from "../src/index.js";
import { codeOf, outputUnusable, reading, unusable, writing } from "./fileErrors.js";

/** A file that is read in pieces. It is never written to. */
export interface OpenFile extends ByteSource {
  readonly descriptor: number;
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
      refuseChanged: () =>
        reading(() => {
          const now = fstatSync(descriptor);
          if (now.size !== opened.size || now.mtimeMs !== opened.mtimeMs) throw unusable("changed");
        }),
      close: () => closeSync(descriptor),
    };
  });
}

/** What a descriptor stands for, as bytes read in pieces; a file that ends earlier than it did is told as changed. */
export function descriptorSource(descriptor: number, sizeBytes: number): ByteSource {
  return {
    sizeBytes,
    read: (offset, length) =>
      reading(() => readPiece(descriptor, offset, Math.max(0, Math.min(length, sizeBytes - offset)))),
  };
}

function readPiece(descriptor: number, offset: number, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let done = 0;
  while (done < length) {
    const count = readSync(descriptor, bytes, done, length - done, offset + done);
    if (count === 0) throw unusable("changed");
    done += count;
  }
  return bytes;
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
 * Looks whether a file can be written: its folder is there and may be written to, and what stands in its place may go.
 *
 * @param inputs - files that are read; none of them is ever written over, by whatever name
 * @throws AnalysisError `output-unusable`
 */
export function lookAtOutput(path: string, inputs: readonly string[], force: boolean): void {
  writing(() => {
    if (path === "") throw outputUnusable("name");
    if (/[/\\]$/.test(path)) throw outputUnusable(existsSync(path) ? "directory" : "no-folder");
    const folder = dirname(path);
    if (!statSync(folder).isDirectory()) throw outputUnusable("no-folder");
    // A link that leads nowhere is something that is there, too.
    const isThere = lstatSync(path, { throwIfNoEntry: false }) !== undefined;
    const seen = statSync(path, { throwIfNoEntry: false });
    if (seen?.isDirectory()) throw outputUnusable("directory");
    if (seen !== undefined && inputs.some((input) => isSameFile(input, path))) throw outputUnusable("input");
    if (seen !== undefined && !seen.isFile()) throw outputUnusable("not-regular");
    if (isThere && !force) throw outputUnusable("exists");
    if (seen !== undefined) accessSync(path, constants.W_OK);
    accessSync(folder, constants.W_OK | constants.X_OK);
  });
}

/** Whether two names stand for one file, or would once it is written. */
export function isSameFile(one: string, other: string): boolean {
  const [a, b] = [one, other].map((path) => statSync(path, { bigint: true, throwIfNoEntry: false }));
  if (a !== undefined && b !== undefined) return a.ino === b.ino && a.dev === b.dev;
  return a === undefined && b === undefined && placeOf(one) === placeOf(other);
}

function placeOf(path: string): string {
  const folder = dirname(path);
  return join(existsSync(folder) ? realpathSync(folder) : folder, basename(path));
}

/**
 * Writes a text file whole or not at all: beside its place first, then moved there at once. A file that came there in between
 * is left as it is, unless `force` is given. Where a link stands, `force` writes what it leads to.
 *
 * @throws AnalysisError `output-unusable`
 */
export function writeWhole(path: string, text: string, force: boolean): void {
  writing(() => {
    const target = force && existsSync(path) ? realpathSync(path) : path;
    const replaced = force ? statSync(target, { throwIfNoEntry: false }) : undefined;
    const beside = join(dirname(target), `.gurdybench-${randomUUID().slice(0, 8)}.part`);
    const descriptor = openSync(beside, "wx");
    try {
      try {
        writeFileSync(descriptor, text);
        if (replaced !== undefined) perhaps(() => fchmodSync(descriptor, replaced.mode & 0o777));
        perhaps(() => fsyncSync(descriptor), ["ENOSPC", "EDQUOT", "EIO"]);
      } finally {
        closeSync(descriptor);
      }
      if (force) renameSync(beside, target);
      else placeNew(beside, target);
    } finally {
      perhaps(() => rmSync(beside, { force: true }));
    }
  });
}

/** A link is refused where a file stands already, without a moment between looking and writing. Not all disks have links. */
function placeNew(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (!["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"].includes(codeOf(error))) throw error;
    // There the name is taken by an empty file first, which only one can do.
    closeSync(openSync(to, "wx"));
    try {
      renameSync(from, to);
    } catch (failure) {
      perhaps(() => rmSync(to, { force: true }));
      throw failure;
    }
  }
}

/** Not all disks can do this; only these errors count. */
function perhaps(action: () => void, grave: readonly string[] = []): void {
  try {
    action();
  } catch (error) {
    if (grave.includes(codeOf(error))) throw error;
  }
}

/** A file for what is decoded, which is gone as soon as nobody has it open. */
export interface Spool {
  readonly descriptor: number;
  append(bytes: Uint8Array): void;
  close(): void;
}

/** Opens one among the temporary files. It has lost its name before anything is written, so that nothing is ever left of it. */
export function openSpool(): Spool {
  const path = join(tmpdir(), `gurdybench-${randomUUID()}.part`);
  const descriptor = openSync(path, "wx+", 0o600);
  const remove = () => perhaps(() => rmSync(path, { force: true }));
  remove();
  return {
    descriptor,
    append: (bytes) => {
      for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
    },
    close: () => {
      closeSync(descriptor);
      remove();
    },
  };
}

/**
 * Where a program lies that the PATH leads to. Only whole paths in it count: an empty or relative one is the folder that
 * one works in, where a downloaded file could be called by that name.
 */
export function findProgram(name: string): string | null {
  const isWindows = process.platform === "win32";
  const file = isWindows ? `${name}.exe` : name;
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    if (!isAbsolute(folder)) continue;
    const path = join(folder, file);
    try {
      if (!statSync(path).isFile()) continue;
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // Not there, or not to be run: the next one.
    }
  }
  return null;
}

/** The name under which a program that inherits a file as descriptor 3 opens it; null where the system has none. */
export function inheritedFile(): string | null {
  return process.platform !== "win32" && existsSync("/dev/fd/0") ? "/dev/fd/3" : null;
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
