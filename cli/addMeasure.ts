import { type Command, Option } from "commander";
import { documentJson, isMeasured, measureCsv, measureText, printable } from "../src/index.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { takesNamed } from "./files/filesMatching.js";
import type { LateParts } from "./LateParts.js";
import { parseAnchor } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, named, type OutputChoice, writeOutputs } from "./outputs.js";
import { picturedTakes } from "./picturedTakes.js";
import type { Terminal } from "./Terminal.js";
import { addLogOptions, checkLog, type LogChoice, logTakes } from "./takeLog.js";
import { namedByPath, takesExitCode } from "./takesExitCode.js";
import { addTargetOptions } from "./targetOptions.js";
import { textOptions } from "./textOptions.js";

interface MeasureOptions extends TargetChoice, OutputChoice, LogChoice {
  readonly json?: true;
}

/** The command `measure`. */
export function addMeasure(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("measure")
    .description("measure the strings in one or more recordings")
    .argument(
      "<take...>",
      "recordings (WAV; M4A, MP3, FLAC, OGG where ffmpeg is installed); write -- before a name that begins with a dash",
    );
  addLogOptions(addOutputOptions(addTargetOptions(command)))
    .addOption(
      new Option(
        "--anchor <name>",
        "the one string that can't be moved; the others are to go by it",
      ).argParser(parseAnchor),
    )
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: the drones of an alto, recorded one after another, set to C:\n" +
        "  gurdybench measure drones.wav --tuning alto --tonic C\n\n" +
        "--log only ever adds a line at the end, so it needs no --force; gurdybench history\n" +
        "reads the log.\n\n" +
        "Exit codes: 0 done; 1 some take could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 no take could be used; 4 the output can't be written.",
    )
    .action((names: string[], options: MeasureOptions) => {
      const takes = takesNamed(names);
      const chosen = chooseTargets(options, late.readInstrument);
      checkOutputs(options, [...takes, options.instrument, options.log]);
      checkLog(options, named([...takes, options.instrument]));
      const wanted = options.html === undefined ? null : late.pages;
      const { document, pictured } = picturedTakes(takes.map(namedByPath), chosen, terminal, wanted);
      for (const take of document.takes.filter((each) => !isMeasured(each))) {
        terminal.stderr.write(
          `gurdybench: ${printable(take.file)}: no string could be measured; see its findings.\n`,
        );
      }
      if (options.json) terminal.stdout.write(documentJson(document));
      else if (document.takes.length > 0) terminal.stdout.write(measureText(document, textOptions(terminal)));
      logTakes(options, document, terminal);
      if (document.takes.length > 0) {
        writeOutputs(
          options,
          {
            html: () =>
              wanted!.htmlPage(wanted!.measurePage(document, pictured, named([options.instrument]))),
            csv: () => measureCsv(document),
          },
          terminal,
        );
      }
      setExitCode(takesExitCode(document, isMeasured));
    });
}
