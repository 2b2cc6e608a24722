import {
  AnalysisError,
  type CompareDocument,
  compareDocument,
  compareSides,
  errorSentence,
  type MicrophoneResponse,
  printable,
  readMicrophoneResponse,
  type TakeReading,
  withMicrophone,
  withMicrophoneFinding,
} from "../src/index.js";
import type { NamedSide } from "./chooseSides.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { readTextFile } from "./files/readTextFile.js";
import { Progress } from "./Progress.js";
import { readTakes } from "./readTakes.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

/** What a comparison is made with. */
export interface CompareChoice {
  readonly equalGain: boolean;
  /** File with the response of the microphone. */
  readonly microphone: string | null;
}

// A response is a table of some hundred lines.
const MICROPHONE_LIMIT_BYTES = 1 << 20;

/**
 * Measures the takes of all sides and compares them. A take that can't be read, or holds no string, is told on stderr at
 * once, listed in the document, and does not stop the others.
 *
 * @returns null where a side has no take left
 */
export function compareTakes(
  sides: readonly NamedSide[],
  chosen: ChosenTargets,
  choice: CompareChoice,
  terminal: Terminal,
): CompareDocument | null {
  const response = choice.microphone === null ? null : readMicrophone(choice.microphone);
  const { lowEdgeHz } = chosen.settings;
  const failed: { file: string; error: AnalysisError | null }[] = [];
  const fail = (file: string, error: AnalysisError | null) => {
    failed.push({ file, error });
    const sentence =
      error === null
        ? `${printable(file)}: no string could be measured; it was left out. Measure it by itself to see why.`
        : errorSentence(error, file);
    terminal.stderr.write(`gurdybench: ${sentence}\n`);
  };
  const read = sides.map(({ name }) => ({
    side: { name, takes: [] as TakeReading[] },
    files: [] as string[],
  }));
  const sideOf = sides.flatMap(({ paths }, side) => paths.map(() => side));
  const paths = sides.flatMap((side) => side.paths);
  const progress = new Progress(terminal.stderr);
  readTakes(paths, chosen, false, {
    onProgress: (index, done) => progress.show(printable(paths[index]!), done),
    onRead: (index, { reading }) => {
      progress.erase();
      const path = paths[index]!;
      const { side, files } = read[sideOf[index]!]!;
      if (reading instanceof AnalysisError) fail(path, reading);
      else if (reading.sounds.length === 0) fail(path, null);
      else {
        side.takes.push(response === null ? reading : withMicrophone(reading, response, lowEdgeHz));
        files.push(path);
      }
    },
  });
  const empty = read.filter(({ side }) => side.takes.length === 0);
  if (empty.length > 0) {
    const names = empty.map(({ side }) => printable(side.name)).join(", ");
    terminal.stderr.write(`gurdybench: no take of ${names} could be used, so there is nothing to compare.\n`);
    return null;
  }
  const comparison = compareSides(
    read.map(({ side }) => side),
    { equalGain: choice.equalGain, lowEdgeHz },
  );
  return compareDocument({
    toolVersion: packageVersion(),
    instrument: chosen.instrumentName,
    settings: compareSettings(chosen, choice),
    comparison: withMicrophoneFinding(comparison, response),
    files: read.map(({ files }) => files),
    failed,
  });
}

/** The settings of the document: an anchor plays no part in a comparison. */
export function compareSettings(
  { settings: { anchor: _, ...settings } }: ChosenTargets,
  choice: CompareChoice,
): CompareDocument["settings"] {
  return { ...settings, ...choice };
}

function readMicrophone(path: string): MicrophoneResponse {
  try {
    return readMicrophoneResponse(readTextFile(path, MICROPHONE_LIMIT_BYTES));
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error, path));
    throw error;
  }
}
