import { type Command, Option } from "commander";
import { trompetteCsv, trompetteText } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import type { LateParts } from "./LateParts.js";
import { parseTurns } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice } from "./outputs.js";
import { addPitchOptions } from "./pitchOptions.js";
import { readTrompetteTake } from "./readTrompetteTake.js";
import type { Terminal } from "./Terminal.js";

interface TrompetteOptions extends TargetChoice, OutputChoice {
  readonly string?: string;
  readonly json?: true;
}

/** The command `trompette`. */
export function addTrompette(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("trompette")
    .description(
      "say when and how strongly the buzzing bridge buzzes, how evenly, and what becomes of the pitch",
    )
    .argument("<take>", "recording of the trompette; write -- before a name that begins with a dash")
    .addOption(
      new Option(
        "--string <name>",
        "the string over the buzzing bridge (otherwise the instrument's trompette)",
      ),
    )
    .addOption(
      new Option(
        "--turns-per-second <n>",
        "turns of the wheel you count, right to within 15 % (worked out from the part without strokes otherwise)",
      ).argParser(parseTurns),
    );
  addOutputOptions(addPitchOptions(command))
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: the trompette alone, five seconds without strokes, then a row of strokes:\n" +
        "  gurdybench trompette strokes.wav --tuning soprano\n\n" +
        "Exit codes: 0 done, also where nothing buzzes; 2 wrong usage or a bad\n" +
        "instrument file; 3 the take could not be used; 4 the output can't be written.",
    )
    .action((take: string, options: TrompetteOptions) => {
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [take, options.instrument]);
      const document = readTrompetteTake(take, options.string, chosen, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, options, terminal, {
        text: (set) => trompetteText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.trompettePage(document, named([options.instrument]))),
        csv: () => trompetteCsv(document),
      });
      const isUsable = document.soundingSeconds > 0 && document.bandHz !== null;
      setExitCode(isUsable ? exitCodes.done : exitCodes.noTakeUsable);
    });
}
