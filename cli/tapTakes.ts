import {
  AnalysisError,
  errorSentence,
  printable,
  type ReadTaps,
  readTaps,
  type TapDocument,
  type TapDocumentInput,
  tapDocument,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { Progress } from "./Progress.js";
import { readRecording } from "./readRecording.js";
import { readTake } from "./readTake.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

/** What the command was asked, besides the takes. */
export interface TapChoice {
  readonly other?: string;
  readonly name?: string;
  readonly otherName?: string;
  readonly bowed?: string;
}

/**
 * Reads takes of taps, and the bowed one where it is given. What can't be read is told on stderr at once, listed in the
 * document, and does not stop the others.
 *
 * @throws UsageError for options that don't go together
 */
export function tapTakes(
  paths: readonly string[],
  choice: TapChoice,
  chosen: ChosenTargets,
  terminal: Terminal,
): TapDocument {
  checkChoice(paths, choice, chosen);
  const failed: { file: string; error: AnalysisError }[] = [];
  const fail = (file: string, error: AnalysisError) => {
    failed.push({ file, error });
    terminal.stderr.write(`gurdybench: ${errorSentence(error, file)}\n`);
  };
  const read = (file: string, name: string): ReadTaps[] => {
    const reading = readOne(file, terminal);
    if (!(reading instanceof AnalysisError)) return [{ file, name, reading }];
    fail(file, reading);
    return [];
  };
  const takes = paths.flatMap((path) => read(path, choice.name ?? path));
  const others = choice.other === undefined ? [] : read(choice.other, choice.otherName ?? choice.other);
  const bowed = takes.length === 0 ? null : bowedOf(choice.bowed, chosen, terminal, fail);
  return tapDocument({
    toolVersion: packageVersion(),
    takes: [...takes, ...others],
    failed,
    hasOther: takes.length > 0 && others.length > 0,
    bowed,
  });
}

function bowedOf(
  file: string | undefined,
  chosen: ChosenTargets,
  terminal: Terminal,
  fail: (file: string, error: AnalysisError) => void,
): TapDocumentInput["bowed"] {
  if (file === undefined) return null;
  const progress = new Progress(terminal.stderr);
  const reading = readTake(file, chosen, (done) => progress.show(printable(file), done));
  progress.erase();
  if (reading instanceof AnalysisError) {
    fail(file, reading);
    return null;
  }
  const { anchor: _, lowEdgeHz: __, ...settings } = chosen.settings;
  return { file, instrument: chosen.instrumentName, settings, reading };
}

function readOne(path: string, terminal: Terminal): ReadTaps["reading"] | AnalysisError {
  const progress = new Progress(terminal.stderr);
  const reading = readRecording(path, (recording) =>
    readTaps(recording, { onProgress: (done) => progress.show(printable(path), done) }),
  );
  progress.erase();
  return reading;
}

function checkChoice(paths: readonly string[], choice: TapChoice, { targets }: ChosenTargets): void {
  if (paths.length > 1) {
    const single = (["other", "name", "bowed"] as const).filter((option) => choice[option] !== undefined);
    if (single.length > 0) throw new UsageError(`--${single.join(", --")} is used with one take of taps.`);
  }
  if (choice.otherName !== undefined && choice.other === undefined) {
    throw new UsageError("--other-name NAME is used with --other TAKE.wav.");
  }
  if (targets !== null && choice.bowed === undefined) {
    throw new UsageError("--tuning and --instrument speak of bowed strings: use them with --bowed TAKE.wav.");
  }
}
