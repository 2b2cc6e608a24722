import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

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
