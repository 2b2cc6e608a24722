import { AnalysisError, errorSentence, printable, type WheelDocument, wheelDocument } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { Progress } from "./Progress.js";
import { readTake } from "./readTake.js";
import type { Terminal } from "./Terminal.js";

/** Reads what one take says about the wheel. @returns null, and a sentence on stderr, where it can't be read */
export function readWheelTake(path: string, chosen: ChosenTargets, terminal: Terminal): WheelDocument | null {
  const progress = new Progress(terminal.stderr);
  const reading = readTake(path, chosen, (done) => progress.show(printable(path), done));
  progress.erase();
  if (reading instanceof AnalysisError) {
    terminal.stderr.write(`gurdybench: ${errorSentence(reading, path)}\n`);
    return null;
  }
  const { anchor: _, lowEdgeHz: __, ...settings } = chosen.settings;
  return wheelDocument({
    toolVersion: packageVersion(),
    instrument: chosen.instrumentName,
    settings: { ...settings, turnsPerSecond: chosen.turnsPerSecond },
    file: path,
    reading,
  });
}
