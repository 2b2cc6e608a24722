import { type Command, Option } from "commander";
import { AnalysisError, errorSentence, printable } from "../src/index.js";
import { isSameFile } from "./files/isSameFile.js";
import { lookAtOutput } from "./files/lookAtOutput.js";
import { writeWhole } from "./files/writeWhole.js";
import { OutputError } from "./OutputError.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";
import { watcher } from "./watcher.js";

/** Files that a command writes besides what it prints. */
export interface OutputChoice {
  readonly html?: string;
  readonly csv?: string;
  readonly force?: true;
}

/** The options for files that are written. */
export function addOutputOptions(command: Command): Command {
  return command
    .addOption(new Option("--html <file>", "write a page with pictures, to look at and to hand over"))
    .addOption(new Option("--csv <file>", "write the table, for a spreadsheet"))
    .addOption(new Option("--force", "write over a file that is there already"));
}

/**
 * Looks whether the outputs can be written, before the work is done.
 *
 * @param inputs - files that are read, which are never written over; those that were not named are undefined
 */
export function checkOutputs(
  { html, csv, force }: OutputChoice,
  inputs: readonly (string | undefined)[],
): void {
  const read = named(inputs);
  if (html !== undefined && csv !== undefined && isSameFile(html, csv))
    throw new UsageError("--html and --csv name the same file.");
  for (const path of [html, csv]) {
    if (path !== undefined) told(path, () => lookAtOutput(path, read, force === true));
  }
}

/** The files of those that were named. */
export function named(files: readonly (string | undefined)[]): string[] {
  return files.filter((file) => file !== undefined);
}

/** Writes what was asked for, each file whole or not at all. */
export function writeOutputs(
  { html, csv, force }: OutputChoice,
  make: { readonly html: () => string; readonly csv: () => string },
  terminal: Terminal,
): void {
  const written: string[] = [];
  for (const [path, text] of [
    [html, make.html],
    [csv, make.csv],
  ] as const) {
    if (path === undefined) continue;
    const made = text();
    told(path, () => {
      // On some disks two names that differ in capitals only are one.
      const isFree = !written.some((other) => isSameFile(other, path));
      watcher.whileWriting(() => writeWhole(path, made, force === true && isFree));
    });
    written.push(path);
    terminal.stderr.write(`gurdybench: wrote ${printable(path)}\n`);
  }
}

/** Does something to an output; what goes wrong is told with its name. */
export function told(path: string, action: () => void): void {
  try {
    action();
  } catch (error) {
    if (error instanceof AnalysisError) throw new OutputError(errorSentence(error, printable(path)));
    throw error;
  }
}
