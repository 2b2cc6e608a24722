import { accessSync, constants, existsSync, lstatSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { outputUnusable, writing } from "./fileErrors.js";
import { isSameFile } from "./isSameFile.js";

/**
 * Looks whether a file can be written: its folder is there and may be written to, and what stands in its place may go.
 *
 * @param inputs - files that are read; none of them is ever written over, by whatever name
 * @throws AnalysisError `output-unusable`
 */
export function lookAtOutput(path: string, inputs: readonly string[], force: boolean): void {
  writing(() => {
    lookAtPlace(path, inputs);
    // A link that leads nowhere is something that is there, too.
    if (!force && lstatSync(path, { throwIfNoEntry: false }) !== undefined) throw outputUnusable("exists");
    if (existsSync(path)) accessSync(path, constants.W_OK);
    accessSync(dirname(path), constants.W_OK | constants.X_OK);
  });
}

/** What stands where something is to be written is in a folder, no folder itself, no device, and none of the files that are read. */
export function lookAtPlace(path: string, inputs: readonly string[]): void {
  if (path === "") throw outputUnusable("name");
  if (/[/\\]$/.test(path)) throw outputUnusable(existsSync(path) ? "directory" : "no-folder");
  if (!statSync(dirname(path)).isDirectory()) throw outputUnusable("no-folder");
  const seen = statSync(path, { throwIfNoEntry: false });
  if (seen === undefined) return;
  if (seen.isDirectory()) throw outputUnusable("directory");
  if (inputs.some((input) => isSameFile(input, path))) throw outputUnusable("input");
  if (!seen.isFile()) throw outputUnusable("not-regular");
}
