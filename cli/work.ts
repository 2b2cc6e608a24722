import { parentPort } from "node:worker_threads";
import { compileLater } from "./compileLater.js";
import { runProgram } from "./program.js";
import type { TextSink } from "./Terminal.js";
import type { WorkerSetup, WorkMessage } from "./ThreadMessages.js";

/** Runs the command in the thread that works: all it prints goes to the one that watches. */
export async function work({ args, stdout, stderr, colour }: WorkerSetup): Promise<void> {
  const tell = (message: WorkMessage) => parentPort?.postMessage(message);
  const sink = (to: "stdout" | "stderr", about: Omit<TextSink, "write">): TextSink => ({
    ...about,
    write: (text) => tell({ kind: "text", to, text }),
  });
  const wantsPage = args.some((arg) => arg === "--html" || arg.startsWith("--html="));
  const pages = wantsPage ? await import("../src/pages.js") : null;
  compileLater();
  const terminal = { stdout: sink("stdout", stdout), stderr: sink("stderr", stderr), colour };
  const exitCode = runProgram(args, terminal, pages);
  tell({ kind: "done", exitCode });
}
