import {
  AnalysisError,
  errorSentence,
  type MeasureDocument,
  measureDocument,
  type PicturedTake,
  printable,
  type TakeReading,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import type { LateParts } from "./LateParts.js";
import { Progress } from "./Progress.js";
import { readTakes } from "./readTakes.js";
import type { Terminal } from "./Terminal.js";

/** A take and the name to show for it, where that is not its path. */
export interface NamedTake {
  readonly path: string;
  readonly name: string;
}

/** The takes as a document, and what a page shows of each besides. */
export interface PicturedTakes {
  readonly document: MeasureDocument;
  readonly pictured: readonly PicturedTake[];
}

/**
 * Measures takes into one document. A take that can't be read is told on stderr at once, listed
 * in the document, and does not stop the others.
 *
 * @param pages - null where no page is asked for: there are no pictures then
 */
export function picturedTakes(
  takes: readonly NamedTake[],
  chosen: ChosenTargets,
  terminal: Terminal,
  pages: LateParts["pages"],
): PicturedTakes {
  const pictured: PicturedTake[] = [];
  const measured: { file: string; reading: TakeReading }[] = [];
  const failed: { file: string; error: AnalysisError }[] = [];
  const progress = new Progress(terminal.stderr);
  readTakes(
    takes.map(({ path }) => path),
    chosen,
    pages !== null,
    {
      onProgress: (index, done) => progress.show(printable(takes[index]!.name), done),
      onRead: (index, { reading, spectrogram }) => {
        progress.erase();
        const { name } = takes[index]!;
        if (reading instanceof AnalysisError) {
          failed.push({ file: name, error: reading });
          terminal.stderr.write(`gurdybench: ${errorSentence(reading, name)}\n`);
        } else {
          measured.push({ file: name, reading });
          pictured.push({ ...reading, spectrogram });
        }
      },
    },
  );
  const document = measureDocument({
    toolVersion: packageVersion(),
    instrument: chosen.instrumentName,
    settings: chosen.settings,
    takes: measured,
    failed,
  });
  return { document, pictured };
}
