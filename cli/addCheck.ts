import type { Command } from "commander";
import { checkCsv, checkText, checkVerdict } from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { takesNamed } from "./files/filesMatching.js";
import type { LateParts } from "./LateParts.js";
import { addOutputOptions, checkOutputs, type OutputChoice, writeOutputs } from "./outputs.js";
import { picturedTakes } from "./picturedTakes.js";
import type { Terminal } from "./Terminal.js";
import { namedByPath, takesExitCode } from "./takesExitCode.js";
import { textOptions } from "./textOptions.js";

/** The command `check`. */
export function addCheck(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("check")
    .description("say whether recordings are good enough to measure from: clipping, hum, noise, length")
    .argument(
      "<take...>",
      "recordings (WAV; M4A, MP3, FLAC, OGG where ffmpeg is installed); write -- before a name that begins with a dash",
    );
  addOutputOptions(command)
    .addHelpText("after", "\nExample:\n  gurdybench check drones.wav")
    .action((names: string[], options: OutputChoice) => {
      const takes = takesNamed(names);
      checkOutputs(options, takes);
      const wanted = options.html === undefined ? null : late.pages;
      const { document, pictured } = picturedTakes(
        takes.map(namedByPath),
        chooseTargets({}, null),
        terminal,
        wanted,
      );
      if (document.takes.length > 0) {
        terminal.stdout.write(checkText(document, textOptions(terminal)));
        writeOutputs(
          options,
          {
            html: () => wanted!.htmlPage(wanted!.checkPage(document, pictured)),
            csv: () => checkCsv(document),
          },
          terminal,
        );
      }
      setExitCode(takesExitCode(document, (take) => checkVerdict(take) !== "bad"));
    });
}
