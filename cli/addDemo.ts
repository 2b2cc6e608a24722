import { Argument, type Command } from "commander";
import {
  compareCsv,
  compareText,
  demoCompareIntroText,
  demoIntroText,
  isMeasured,
  measureCsv,
  measureText,
} from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { compareDemoSides } from "./compareDemoSides.js";
import { packageFile } from "./files/packageFile.js";
import type { LateParts } from "./LateParts.js";
import { addOutputOptions, checkOutputs, type OutputChoice, writeOutputs } from "./outputs.js";
import { picturedTakes } from "./picturedTakes.js";
import type { Terminal } from "./Terminal.js";
import { takesExitCode } from "./takesExitCode.js";
import { columns, textOptions } from "./textOptions.js";

/** The command `demo`. */
export function addDemo(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("demo")
    .description("measure a synthesised take of an invented instrument, to see what the output looks like")
    .addArgument(
      new Argument("[what]", "measure: one take; compare: three instruments, three takes each")
        .choices(["measure", "compare"])
        .default("measure"),
    );
  addOutputOptions(command)
    .addHelpText(
      "after",
      "\nExamples: the sheet of one take; three instruments compared, as a page:\n" +
        "  gurdybench demo\n" +
        "  gurdybench demo compare --html compared.html",
    )
    .action((what: "measure" | "compare", options: OutputChoice) => {
      const instrument = packageFile("fixtures", "demo-instrument.yaml");
      const take = { path: packageFile("fixtures", "demo-take.wav"), name: "demo-take.wav" };
      checkOutputs(options, [instrument, take.path]);
      if (what === "compare") {
        terminal.stdout.write(demoCompareIntroText(columns(terminal)));
        const document = compareDemoSides(late.readInstrument);
        terminal.stdout.write(compareText(document, textOptions(terminal)));
        writeOutputs(
          options,
          {
            html: () => late.pages!.htmlPage(late.pages!.comparePage(document)),
            csv: () => compareCsv(document),
          },
          terminal,
        );
        return;
      }
      terminal.stdout.write(demoIntroText(columns(terminal)));
      const wanted = options.html === undefined ? null : late.pages;
      const { document, pictured } = picturedTakes(
        [take],
        chooseTargets({ instrument }, late.readInstrument),
        terminal,
        wanted,
      );
      terminal.stdout.write(measureText(document, textOptions(terminal)));
      writeOutputs(
        options,
        {
          html: () => wanted!.htmlPage(wanted!.measurePage(document, pictured)),
          csv: () => measureCsv(document),
        },
        terminal,
      );
      setExitCode(takesExitCode(document, isMeasured));
    });
}
