import { existsSync } from "node:fs";
import { isAbsolute } from "node:path";
import { globSync } from "tinyglobby";

/**
 * The files that a pattern such as `takes/short-*.wav` stands for, by name; a text without the characters of a pattern,
 * or one that a file is called by, is that file.
 */
export function filesMatching(pattern: string): string[] {
  if (!/[*?[\]{}]/.test(pattern) || existsSync(pattern)) return [pattern];
  // There a backslash parts folders; in a pattern it would take its meaning from the sign after it.
  const written = process.platform === "win32" ? pattern.replaceAll("\\", "/") : pattern;
  return globSync(written, {
    expandDirectories: false,
    onlyFiles: true,
    // Names come back as they were given: whole, or from here.
    absolute: isAbsolute(pattern),
  }).sort();
}

/** The takes that were named, patterns expanded that the shell left (on Windows all); one that stands for no file stays as it is, to be told. */
export function takesNamed(names: readonly string[]): string[] {
  return names.flatMap((name) => {
    const found = filesMatching(name);
    return found.length > 0 ? found : [name];
  });
}
