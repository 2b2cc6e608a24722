import type { Command } from "commander";
import { builtInTunings, stringTargets, tuningsCsv, tuningsText } from "../src/index.js";
import { packageVersion } from "./files/packageFile.js";
import type { LateParts } from "./LateParts.js";
import { addOutputOptions, checkOutputs, type OutputChoice, writeOutputs } from "./outputs.js";
import type { Terminal } from "./Terminal.js";
import { columns } from "./textOptions.js";

const A4_HZ = 440;

/** The command `tunings`. */
export function addTunings(
  program: Command,
  terminal: Terminal,
  _setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program.command("tunings").description("list the built-in tunings");
  addOutputOptions(command)
    .addHelpText("after", "\nExample:\n  gurdybench tunings")
    .action((choice: OutputChoice) => {
      checkOutputs(choice, []);
      const listed = builtInTunings.map((tuning) => ({ name: tuning.name, targets: stringTargets(tuning) }));
      terminal.stdout.write(tuningsText(listed, A4_HZ, columns(terminal)));
      writeOutputs(
        choice,
        {
          html: () => late.pages!.htmlPage(late.pages!.tuningsPage(listed, A4_HZ, packageVersion())),
          csv: () => tuningsCsv(listed),
        },
        terminal,
      );
    });
}
