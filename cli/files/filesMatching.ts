import { existsSync } from "node:fs";
import { globSync } from "tinyglobby";

/**
 * The files that a pattern such as `takes/short-*.wav` stands for, by name; a text without the characters of a pattern,
 * or one that a file is called by, is that file.
 */
export function filesMatching(pattern: string): string[] {
  if (!/[*?[\]{}]/.test(pattern) || existsSync(pattern)) return [pattern];
  return globSync(pattern, { expandDirectories: false, onlyFiles: true }).sort();
}
