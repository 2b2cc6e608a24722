import { existsSync, realpathSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";

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
