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
import { addOutputOptions, checkOutputs, type OutputChoice, writeOutputs } from "./outputs.js";
import type { Pages } from "./Pages.js";
import { picturedTakes } from "./picturedTakes.js";
import type { Terminal } from "./Terminal.js";
import { takesExitCode } from "./takesExitCode.js";
import { columns, textOptions } from "./textOptions.js";

/** The command `demo`. */
export function addDemo(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  pages: Pages | null,
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
        const document = compareDemoSides();
        terminal.stdout.write(compareText(document, textOptions(terminal)));
        writeOutputs(
          options,
          {
            html: () => pages!.htmlPage(pages!.comparePage(document)),
            csv: () => compareCsv(document),
          },
          terminal,
        );
        return;
      }
      terminal.stdout.write(demoIntroText(columns(terminal)));
      const wanted = options.html === undefined ? null : pages;
      const { document, pictured } = picturedTakes([take], chooseTargets({ instrument }), terminal, wanted);
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
