import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { packageFile } from "./packageFile.js";

/**
 * The files of the bench page as they were built, by the path they are asked for with. They are read once: nothing but these can
 * be handed out, whatever is asked for.
 *
 * @returns null where the page was not built
 */
export function pageFiles(): ReadonlyMap<string, Uint8Array> | null {
  const folder = packageFile("dist", "page");
  try {
    const names = readdirSync(folder, { recursive: true }).map(String);
    const files = names
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [`/${name.replaceAll("\\", "/")}`, readFileSync(join(folder, name))] as const);
    const index = files.find(([path]) => path === "/index.html");
    return index === undefined ? null : new Map([...files, ["/", index[1]]]);
  } catch {
    return null;
  }
}
