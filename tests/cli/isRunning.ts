import { existsSync, readFileSync } from "node:fs";

/** Whether a process is still at work; one that has ended and was not yet taken note of is not. */
export function isRunning(pid: number): boolean {
  const status = `/proc/${pid}/status`;
  try {
    process.kill(pid, 0);
    return !/^State:\s*Z/m.test(existsSync(status) ? readFileSync(status, "utf8") : "");
  } catch {
    return false;
  }
}
