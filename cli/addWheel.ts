import { type Command, Option } from "commander";
import { wheelCsv, wheelText } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import type { LateParts } from "./LateParts.js";
import { parseTurns } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice } from "./outputs.js";
import { readWheelTake } from "./readWheelTake.js";
import type { Terminal } from "./Terminal.js";
import { addTargetOptions } from "./targetOptions.js";

interface WheelOptions extends TargetChoice, OutputChoice {
  readonly json?: true;
}

/** The command `wheel`. */
export function addWheel(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("wheel")
    .description("say how fast the wheel turns, and what of pitch and level swings with it")
    .argument("<take>", "recording of one string or several; write -- before a name that begins with a dash")
    .addOption(
      new Option(
        "--turns-per-second <n>",
        "turns you count, right to within 15 % (worked out from the sound otherwise)",
      ).argParser(parseTurns),
    );
  addOutputOptions(addTargetOptions(command))
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: two drones and a melody string, bowed together for 15 seconds:\n" +
        "  gurdybench wheel drones.wav --tuning alto-three --sounding C2,G2,G4\n\n" +
        "Exit codes: 0 done, also where no swing is shown; 2 wrong usage or a bad\n" +
        "instrument file; 3 the take could not be used; 4 the output can't be written.",
    )
    .action((take: string, options: WheelOptions) => {
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [take, options.instrument]);
      const document = readWheelTake(take, chosen, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, options, terminal, {
        text: (set) => wheelText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.wheelPage(document, named([options.instrument]))),
        csv: () => wheelCsv(document),
      });
      setExitCode(document.passages.length === 0 ? exitCodes.noTakeUsable : exitCodes.done);
    });
}
