import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, isAbsolute, join } from "node:path";

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
