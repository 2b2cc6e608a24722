import { statSync } from "node:fs";

/** Size in bytes of an ordinary file; 0 for anything else. */
export function sizeOf(path: string): number {
  const seen = statSync(path, { throwIfNoEntry: false });
  return seen?.isFile() ? seen.size : 0;
}
