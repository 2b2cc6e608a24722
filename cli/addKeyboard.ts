import { type Command, Option } from "commander";
import { keyboardCsv, keyboardText } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import { type KeyboardChoice, keyboardTakes } from "./keyboardTakes.js";
import type { LateParts } from "./LateParts.js";
import { parseMillimetres } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice } from "./outputs.js";
import { addPitchOptions } from "./pitchOptions.js";
import type { Terminal } from "./Terminal.js";

interface KeyboardOptions extends KeyboardChoice, TargetChoice, OutputChoice {
  readonly json?: true;
}

/** The command `keyboard`. */
export function addKeyboard(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("keyboard")
    .description("read a scale played on one string: how far each key is off, and how to move its tangent")
    .argument("<scale>", "recording of the scale; write -- before a name that begins with a dash")
    .requiredOption(
      "--string <name>",
      "the string that the scale is played on, by its name in the instrument",
    )
    .addOption(
      new Option(
        "--length-mm <mm>",
        "vibrating length, nut to bridge (wins over the instrument's)",
      ).argParser(parseMillimetres),
    )
    .addOption(new Option("--other <scale>", "scale of another string that the same keys stop"))
    .addOption(new Option("--other-string <name>", "that other string"));
  addOutputOptions(addPitchOptions(command))
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: all keys of the top string, from the open string up, drones on or off:\n" +
        "  gurdybench keyboard scale.wav --tuning alto --string G4 --length-mm 345\n\n" +
        "Exit codes: 0 done; 1 the other scale could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 the scale could not be used; 4 the output can't be written.",
    )
    .action((scale: string, options: KeyboardOptions) => {
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [scale, options.other, options.instrument]);
      const { document, otherFailed } = keyboardTakes(scale, options, chosen, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, options, terminal, {
        text: (set) => keyboardText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.keyboardPage(document, named([options.instrument]))),
        csv: () => keyboardCsv(document),
      });
      if (document.keys.length === 0) setExitCode(exitCodes.noTakeUsable);
      else setExitCode(otherFailed ? exitCodes.someTakesUnusable : exitCodes.done);
    });
}
