import type { AddCommand } from "./runCommands.js";

/**
 * What must be loaded for a command line: for `measure`, which is run most and on short takes, that alone; else all commands. Loading
 * all of them would take a twentieth of the time of a take of two minutes.
 */
export async function commandsFor([name]: readonly string[]): Promise<readonly AddCommand[]> {
  if (name === "measure") return [(await import("./addMeasure.js")).addMeasure];
  return (await import("./allCommands.js")).allCommands;
}
