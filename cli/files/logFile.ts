import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  statSync,
  writeSync,
} from "node:fs";
import { logLimits, momentText, startsLog } from "../../src/index.js";
import { outputUnusable, reading, writing } from "./fileErrors.js";
import { lookAtPlace } from "./lookAtOutput.js";
import { readPiece } from "./openFile.js";
import { readWhole } from "./readWhole.js";

const LINE_FEED = 10;

/**
 * Reads a log of takes. Bytes that are no UTF-8 are read as U+FFFD: one damaged line must not cost the others.
 *
 * @throws AnalysisError `file-unusable`
 */
export function readLogFile(path: string): string {
  return new TextDecoder().decode(readWhole(path, logLimits.fileBytes));
}

/**
 * When a file was last written to, by the clock on the wall here: `2026-03-01T14:30:05`.
 *
 * @throws AnalysisError `file-unusable`
 */
export function fileMoment(path: string): string {
  return reading(() => {
    const { mtime } = statSync(path);
    return momentText(mtime.getTime(), mtime.getTimezoneOffset());
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
    lookAtPlace(path, inputs);
    if (existsSync(path)) opened(path, "r+", checkLogStart);
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

function opened(path: string, flags: string, work: (descriptor: number) => void): void {
  const descriptor = openSync(path, flags);
  try {
    work(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
