import type { MeasureDocument } from "../src/index.js";
import { exitCodes } from "./exitCodes.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The exit code of a command over several takes. */
export function takesExitCode(document: MeasureDocument, isUsable: (take: TakeDocument) => boolean): number {
  const usable = document.takes.filter(isUsable).length;
  if (usable === 0) return exitCodes.noTakeUsable;
  return usable < document.takes.length + document.failed.length
    ? exitCodes.someTakesUnusable
    : exitCodes.done;
}

/** A take that is shown by its path. */
export function namedByPath(path: string): { path: string; name: string } {
  return { path, name: path };
}
