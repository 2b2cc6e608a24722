import { Command, CommanderError } from "commander";
import { printable } from "../src/index.js";
import { addCheck } from "./addCheck.js";
import { addCompare } from "./addCompare.js";
import { addCompletion } from "./addCompletion.js";
import { addDemo } from "./addDemo.js";
import { addHistory } from "./addHistory.js";
import { addKeyboard } from "./addKeyboard.js";
import { addMeasure } from "./addMeasure.js";
import { addPage } from "./addPage.js";
import { addStringing } from "./addStringing.js";
import { addSympathetic } from "./addSympathetic.js";
import { addTap } from "./addTap.js";
import { addTrompette } from "./addTrompette.js";
import { addTunings } from "./addTunings.js";
import { addWheel } from "./addWheel.js";
import { exitCodes } from "./exitCodes.js";
import { faultSentence } from "./faultSentence.js";
import { packageVersion } from "./files/packageFile.js";
import { OutputError } from "./OutputError.js";
import type { Pages } from "./Pages.js";
import type { Terminal } from "./Terminal.js";
import { columns } from "./textOptions.js";
import { UsageError } from "./UsageError.js";

/**
 * Runs the command.
 *
 * @param args - what was typed after the command's name
 * @param pages - what draws pages; needed where one is asked for
 * @returns the exit code
 */
export function runProgram(args: readonly string[], terminal: Terminal, pages: Pages | null = null): number {
  let exitCode: number = exitCodes.done;
  try {
    const program = buildProgram(
      terminal,
      (code) => {
        exitCode = code;
      },
      pages,
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

function buildProgram(terminal: Terminal, setExitCode: (code: number) => void, pages: Pages | null): Command {
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
  addMeasure(program, terminal, setExitCode, pages);
  addCompare(program, terminal, setExitCode, pages);
  addWheel(program, terminal, setExitCode, pages);
  addTrompette(program, terminal, setExitCode, pages);
  addKeyboard(program, terminal, setExitCode, pages);
  addSympathetic(program, terminal, setExitCode, pages);
  addTap(program, terminal, setExitCode, pages);
  addCheck(program, terminal, setExitCode, pages);
  addStringing(program, terminal, setExitCode, pages);
  addHistory(program, terminal, setExitCode, pages);
  addPage(program);
  addTunings(program, terminal, pages);
  addDemo(program, terminal, setExitCode, pages);
  addCompletion(program, terminal);
  return program;
}
