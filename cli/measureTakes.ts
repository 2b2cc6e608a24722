import {
  AnalysisError,
  errorSentence,
  type MeasureDocument,
  measureDocument,
  measureTake,
  openWav,
  printable,
  type TakeReading,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { openFile, packageVersion } from "./files.js";
import { Progress } from "./Progress.js";
import type { Terminal } from "./Terminal.js";

/** A take and the name to show for it, where that is not its path. */
export interface NamedTake {
  readonly path: string;
  readonly name: string;
}

/**
 * Measures takes one after another into one document. A take that can't be read is told on stderr at once, listed
 * in the document, and does not stop the others.
 */
export function measureTakes(
  takes: readonly NamedTake[],
  chosen: ChosenTargets,
  terminal: Terminal,
): MeasureDocument {
  const measured: { file: string; reading: TakeReading }[] = [];
  const failed: { file: string; error: AnalysisError }[] = [];
  const progress = new Progress(terminal.stderr);
  for (const { path, name } of takes) {
    const reading = tryMeasure(path, chosen, (done) => progress.show(printable(name), done));
    progress.erase();
    if (reading instanceof AnalysisError) {
      failed.push({ file: name, error: reading });
      terminal.stderr.write(`gurdybench: ${errorSentence(reading, name)}\n`);
    } else {
      measured.push({ file: name, reading });
    }
  }
  return measureDocument({
    toolVersion: packageVersion(),
    instrument: chosen.instrumentName,
    settings: chosen.settings,
    takes: measured,
    failed,
  });
}

function tryMeasure(
  path: string,
  chosen: ChosenTargets,
  onProgress: (done: number) => void,
): TakeReading | AnalysisError {
  try {
    const file = openFile(path);
    try {
      const { targets, settings } = chosen;
      const order = settings.order === null ? {} : { order: settings.order };
      const sounding = settings.sounding === null ? {} : { sounding: settings.sounding };
      const anchor = settings.anchor === null ? {} : { anchor: settings.anchor };
      return measureTake(openWav(file), {
        targets,
        a4Hz: settings.a4Hz,
        onProgress,
        ...order,
        ...sounding,
        ...anchor,
        lowEdgeHz: settings.lowEdgeHz,
      });
    } finally {
      file.close();
    }
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
  }
}
