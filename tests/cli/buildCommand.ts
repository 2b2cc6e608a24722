import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The command as a program of its own, made from its sources. */
export interface BuiltCommand {
  /** What starts it: a program and its first arguments. */
  readonly start: readonly [string, ...string[]];
  remove(): void;
}

/**
 * Bundles the command for tests that start it. From its many sources it would start slowly, and its second thread would not
 * start at all: what compiles them on the way does so in the first thread only.
 */
export async function buildCommand(): Promise<BuiltCommand> {
  // Within the project, where it finds its packages and its files.
  const cache = join(root, "node_modules", ".cache");
  mkdirSync(cache, { recursive: true });
  const outdir = mkdtempSync(join(cache, "gurdybench-test-"));
  await build({
    absWorkingDir: root,
    entryPoints: ["cli/main.ts"],
    bundle: true,
    splitting: true,
    packages: "external",
    platform: "node",
    target: "node20",
    format: "esm",
    outdir,
    outExtension: { ".js": ".mjs" },
    logLevel: "warning",
  });
  return {
    start: [process.execPath, join(outdir, "main.mjs")],
    remove: () => rmSync(outdir, { recursive: true, force: true }),
  };
}
