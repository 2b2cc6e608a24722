import { Argument, type Command } from "commander";
import { compareText, demoCompareIntroText, demoIntroText, measureText } from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { compareDemoSides } from "./compareDemoSides.js";
import { packageFile } from "./files.js";
import { measureTakes } from "./measureTakes.js";
import type { Terminal } from "./Terminal.js";
import { isMeasured, takesExitCode } from "./takesExitCode.js";
import { columns, textOptions } from "./textOptions.js";

/** The command `demo`. */
export function addDemo(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  program
    .command("demo")
    .description("measure a synthesised take of an invented instrument, to see what the output looks like")
    .addArgument(
      new Argument("[what]", "measure: one take; compare: three instruments, three takes each")
        .choices(["measure", "compare"])
        .default("measure"),
    )
    .action((what: "measure" | "compare") => {
      if (what === "compare") {
        terminal.stdout.write(demoCompareIntroText(columns(terminal)));
        terminal.stdout.write(compareText(compareDemoSides(), textOptions(terminal)));
        return;
      }
      const chosen = chooseTargets({ instrument: packageFile("fixtures", "demo-instrument.yaml") });
      const take = { path: packageFile("fixtures", "demo-take.wav"), name: "demo-take.wav" };
      terminal.stdout.write(demoIntroText(columns(terminal)));
      const document = measureTakes([take], chosen, terminal);
      terminal.stdout.write(measureText(document, textOptions(terminal)));
      setExitCode(takesExitCode(document, isMeasured));
    });
}
