import { spawnSync } from "node:child_process";

const found = spawnSync("ffmpeg", ["-hide_banner", "-encoders"], { encoding: "utf8" });

/** Whether ffmpeg is installed. Where it is not, the tests that need it are skipped, and say so. */
export const hasFfmpeg = found.status === 0;

/** Whether it can write a codec. */
export function hasEncoder(name: string): boolean {
  return hasFfmpeg && new RegExp(` ${name} `).test(found.stdout);
}

/** Runs it to make a file. */
export function makeWithFfmpeg(...args: readonly string[]): void {
  const made = spawnSync("ffmpeg", ["-nostdin", "-y", "-v", "error", ...args], { encoding: "utf8" });
  if (made.status !== 0) throw new Error(made.stderr);
}

if (!hasFfmpeg)
  process.stderr.write("ffmpeg is not installed: tests of compressed recordings are skipped.\n");
