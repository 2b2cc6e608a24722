import type { Command } from "commander";
import { checkText, checkVerdict } from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { measureTakes } from "./measureTakes.js";
import type { Terminal } from "./Terminal.js";
import { namedByPath, takesExitCode } from "./takesExitCode.js";
import { textOptions } from "./textOptions.js";

/** The command `check`. */
export function addCheck(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  program
    .command("check")
    .description("say whether recordings are good enough to measure from: clipping, hum, noise, length")
    .argument("<take...>", "WAV recordings; write -- before a name that begins with a dash")
    .addHelpText("after", "\nExample:\n  gurdybench check drones.wav")
    .action((takes: string[]) => {
      const document = measureTakes(takes.map(namedByPath), chooseTargets({}), terminal);
      if (document.takes.length > 0) terminal.stdout.write(checkText(document, textOptions(terminal)));
      setExitCode(takesExitCode(document, (take) => checkVerdict(take) !== "bad"));
    });
}
