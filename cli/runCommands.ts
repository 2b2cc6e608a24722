import { Command, CommanderError } from "commander";
import { printable } from "../src/index.js";
import { exitCodes } from "./exitCodes.js";
import { faultSentence } from "./faultSentence.js";
import { packageVersion } from "./files/packageFile.js";
import type { LateParts } from "./LateParts.js";
import { OutputError } from "./OutputError.js";
import type { Terminal } from "./Terminal.js";
import { columns } from "./textOptions.js";
import { UsageError } from "./UsageError.js";

/** Adds a command to the program. */
export type AddCommand = (
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
) => void;

/**
 * Runs the command.
 *
 * @param commands - those that it knows
 * @param args - what was typed after the command's name
 * @param late - what the command line asks for
 * @returns the exit code
 */
export function runCommands(
  commands: readonly AddCommand[],
  args: readonly string[],
  terminal: Terminal,
  late: LateParts,
): number {
  let exitCode: number = exitCodes.done;
  try {
    const program = buildProgram(
      commands,
      terminal,
      (code) => {
        exitCode = code;
      },
      late,
    );
    program.parse(args, { from: "user" });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.wrongUsage;
    if (error instanceof UsageError) {
      terminal.stderr.write(`gurdybench: ${printable(error.message)}\n`);
      return exitCodes.wrongUsage;
    }
    if (error instanceof OutputError) {
      terminal.stderr.write(`gurdybench: ${error.message}\n`);
      return exitCodes.outputFailed;
    }
    terminal.stderr.write(`gurdybench: ${faultSentence(error)}\n`);
    return exitCodes.noTakeUsable;
  }
}

function buildProgram(
  commands: readonly AddCommand[],
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): Command {
  const program = new Command("gurdybench")
    .description(
      "A measuring bench for hurdy-gurdies: what each string is tuned to, how far off, how steadily.",
    )
    .version(packageVersion(), "-V, --version", "print the version")
    .helpOption("-h, --help", "explain the command")
    .exitOverride()
    // In a narrow terminal, too, what is said of an option keeps to its column.
    .configureHelp({ minWidthToWrap: 16 })
    .configureOutput({
      writeOut: (text) => terminal.stdout.write(text),
      writeErr: (text) => terminal.stderr.write(text),
      getOutHelpWidth: () => columns(terminal),
      getErrHelpWidth: () => columns(terminal),
      // Commander repeats what was typed; its lines are kept, control characters in them are not.
      outputError: (text, write) => write(text.split("\n").map(printable).join("\n")),
    });
  for (const add of commands) add(program, terminal, setExitCode, late);
  return program;
}
