import { parentPort } from "node:worker_threads";
import { commandsFor } from "./commandsFor.js";
import { compileLater } from "./compileLater.js";
import type { LateParts } from "./LateParts.js";
import { runCommands } from "./runCommands.js";
import type { TextSink } from "./Terminal.js";
import type { WorkerSetup, WorkMessage } from "./ThreadMessages.js";

/** Runs the command in the thread that works: all it prints goes to the one that watches. */
export async function work({ args, stdout, stderr, colour }: WorkerSetup): Promise<void> {
  const tell = (message: WorkMessage) => parentPort?.postMessage(message);
  const sink = (to: "stdout" | "stderr", about: Omit<TextSink, "write">): TextSink => ({
    ...about,
    write: (text) => tell({ kind: "text", to, text }),
  });
  const commands = await commandsFor(args);
  const late: LateParts = {
    pages: names(args, "--html") ? await import("../src/pages.js") : null,
    readInstrument: needsInstruments(args) ? (await import("./readInstrument.js")).readInstrument : null,
  };
  compileLater();
  const terminal = { stdout: sink("stdout", stdout), stderr: sink("stderr", stderr), colour };
  const exitCode = runCommands(commands, args, terminal, late);
  tell({ kind: "done", exitCode });
}

function names(args: readonly string[], option: string): boolean {
  return args.some((arg) => arg === option || arg.startsWith(`${option}=`));
}

/** A file that is named, and the demo, which has one of its own. */
function needsInstruments(args: readonly string[]): boolean {
  return names(args, "--instrument") || args.includes("demo");
}
