import { type Command, Option } from "commander";
import { compareCsv, compareText } from "../src/index.js";
import { chooseSides, type SideChoice } from "./chooseSides.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { compareTakes } from "./compareTakes.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import type { LateParts } from "./LateParts.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice } from "./outputs.js";
import type { Terminal } from "./Terminal.js";
import { addTargetOptions } from "./targetOptions.js";

interface CompareOptions extends TargetChoice, SideChoice, OutputChoice {
  readonly equalGain?: true;
  readonly microphone?: string;
  readonly json?: true;
}

/** The command `compare`. */
export function addCompare(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("compare")
    .description("compare the low register of two instruments or more, each recorded in several takes")
    .addOption(new Option("--a <take...>", "recordings of the first side"))
    .addOption(new Option("--b <take...>", "recordings of the other side"))
    .addOption(new Option("--a-name <name>", "what to call the first side (A otherwise)"))
    .addOption(new Option("--b-name <name>", "what to call the other side (B otherwise)"))
    .addOption(
      new Option(
        "--side <name=pattern>",
        "a side by its name and a pattern of files; may be given several times",
      ).argParser((text: string, before: readonly string[] = []) => [...before, text]),
    )
    .addOption(new Option("--equal-gain", "all recordings were made with one gain: levels compare too"))
    .addOption(
      new Option("--microphone <file>", "table of the microphone's response, taken off: hertz and dB a line"),
    );
  addOutputOptions(addTargetOptions(command))
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: three takes a side, player and microphone placed anew for each:\n" +
        "  gurdybench compare --a old-*.wav --b new-*.wav --a-name old --b-name new \\\n" +
        "    --tuning alto\n\n" +
        "Exit codes: 0 done; 1 some take could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 nothing is left to compare; 4 the output can't be written.",
    )
    .action((options: CompareOptions) => {
      const sides = chooseSides(options);
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [...sides.flatMap(({ paths }) => paths), options.instrument, options.microphone]);
      const choice = { equalGain: options.equalGain ?? false, microphone: options.microphone ?? null };
      const document = compareTakes(sides, chosen, choice, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, options, terminal, {
        text: (set) => compareText(document, set),
        html: () =>
          late.pages!.htmlPage(
            late.pages!.comparePage(document, named([options.instrument, options.microphone])),
          ),
        csv: () => compareCsv(document),
      });
      if (document.sounds.length === 0) setExitCode(exitCodes.noTakeUsable);
      else setExitCode(document.failed.length > 0 ? exitCodes.someTakesUnusable : exitCodes.done);
    });
}
