import { type Command, Option } from "commander";
import { sympatheticCsv, sympatheticText } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import type { LateParts } from "./LateParts.js";
import { parseNames } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice } from "./outputs.js";
import { addPitchOptions } from "./pitchOptions.js";
import { readPluckedTake, type SympatheticChoice } from "./readPluckedTake.js";
import type { Terminal } from "./Terminal.js";

interface SympatheticOptions extends SympatheticChoice, TargetChoice, OutputChoice {
  readonly json?: true;
}

/** The command `sympathetic`. */
export function addSympathetic(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("sympathetic")
    .description("tune strings by plucking them, one after another, in any order, with the wheel still")
    .argument("<take>", "recording of the plucks; write -- before a name that begins with a dash")
    .addOption(
      new Option(
        "--strings <name,name>",
        "look for these strings (otherwise for the instrument's sympathetic ones)",
      )
        .argParser(parseNames)
        .conflicts("all"),
    )
    .addOption(new Option("--all", "look for all strings of the instrument"));
  addOutputOptions(addPitchOptions(command))
    .addOption(
      new Option("--order <name,name>", "order in which strings of one note were plucked").argParser(
        parseNames,
      ),
    )
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: each sympathetic string plucked two or three times, a second apart:\n" +
        "  gurdybench sympathetic plucks.wav --instrument mine.yaml\n\n" +
        "Exit codes: 0 done; 2 wrong usage or a bad instrument file; 3 the take could not be\n" +
        "used, or none of the strings was heard; 4 the output can't be written.",
    )
    .action((take: string, options: SympatheticOptions) => {
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [take, options.instrument]);
      const document = readPluckedTake(take, options, chosen, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, options, terminal, {
        text: (set) => sympatheticText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.sympatheticPage(document, named([options.instrument]))),
        csv: () => sympatheticCsv(document),
      });
      const isHeard = document.strings.some(({ status }) => status === "measured");
      setExitCode(isHeard ? exitCodes.done : exitCodes.noTakeUsable);
    });
}
