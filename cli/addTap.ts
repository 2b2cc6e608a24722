import { type Command, Option } from "commander";
import { documentJson, printable, tapCsv, tapText } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { exitCodes } from "./exitCodes.js";
import { takesNamed } from "./files/filesMatching.js";
import type { LateParts } from "./LateParts.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice, writeOutputs } from "./outputs.js";
import type { Terminal } from "./Terminal.js";
import { type TapChoice, tapTakes } from "./tapTakes.js";
import { addTargetOptions } from "./targetOptions.js";
import { textOptions } from "./textOptions.js";

interface TapOptions extends TargetChoice, TapChoice, OutputChoice {
  readonly json?: true;
}

/** The command `tap`. */
export function addTap(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("tap")
    .description("read the modes of a body from taps on its bridge, strings damped")
    .argument(
      "<take...>",
      "recordings of several taps at one spot; write -- before a name that begins with a dash",
    )
    .addOption(new Option("--other <take>", "taps on another body, to be set beside the first"))
    .addOption(new Option("--name <name>", "what to call the first body (its file otherwise)"))
    .addOption(new Option("--other-name <name>", "what to call the other body (its file otherwise)"))
    .addOption(
      new Option("--bowed <take>", "the same instrument bowed: its body curve is laid over the taps"),
    );
  addOutputOptions(addTargetOptions(command))
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nTuning, instrument and the like are those of the bowed take.\n\n" +
        "Example: eight taps on the bridge, a second apart, and the strings bowed in turn:\n" +
        "  gurdybench tap taps.wav --bowed strings.wav --tuning alto\n\n" +
        "Exit codes: 0 done; 1 some take could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 no take of taps could be used; 4 the output can't be written.",
    )
    .action((names: string[], options: TapOptions) => {
      const takes = takesNamed(names);
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [...takes, options.other, options.bowed, options.instrument]);
      const document = tapTakes(takes, options, chosen, terminal);
      for (const { file } of document.takes.filter(({ modes }) => modes.length === 0)) {
        terminal.stderr.write(`gurdybench: ${printable(file)}: no mode could be read; see its cautions.\n`);
      }
      if (options.json) terminal.stdout.write(documentJson(document));
      else if (document.takes.length > 0) terminal.stdout.write(tapText(document, textOptions(terminal)));
      if (document.takes.length > 0) {
        writeOutputs(
          options,
          {
            html: () => late.pages!.htmlPage(late.pages!.tapPage(document, named([options.instrument]))),
            csv: () => tapCsv(document),
          },
          terminal,
        );
      }
      const usable = document.takes.filter(({ modes }) => modes.length > 0).length;
      if (usable === 0) setExitCode(exitCodes.noTakeUsable);
      else {
        const isAll = usable === document.takes.length && document.failed.length === 0;
        setExitCode(isAll ? exitCodes.done : exitCodes.someTakesUnusable);
      }
    });
}
