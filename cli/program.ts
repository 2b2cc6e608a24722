import { readInstrument } from "../src/index.js";
import { allCommands } from "./allCommands.js";
import type { LateParts } from "./LateParts.js";
import { runCommands } from "./runCommands.js";
import type { Terminal } from "./Terminal.js";

/**
 * Runs the program with all its commands and all that they need but pages: see `runCommands`.
 *
 * @param pages - what draws pages; needed where one is asked for
 */
export function runProgram(
  args: readonly string[],
  terminal: Terminal,
  pages: LateParts["pages"] = null,
): number {
  return runCommands(allCommands, args, terminal, { pages, readInstrument });
}
