import {
  AnalysisError,
  compareKeyboards,
  errorSentence,
  instrumentRanges,
  type KeyboardDocument,
  keyboardDocument,
  printable,
  type ReadScale,
  readKeyboard,
  type StringTarget,
  scaleOptions,
  targetNames,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { readOrTell } from "./readOrTell.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

/** What the command was asked. */
export interface KeyboardChoice {
  readonly string: string;
  readonly lengthMm?: number;
  readonly other?: string;
  readonly otherString?: string;
}

/** What came of it. */
export interface KeyboardResult {
  /** Null where the scale could not be read. */
  readonly document: KeyboardDocument | null;
  /** True where the other string's scale could not be read, or holds no key. */
  readonly otherFailed: boolean;
}

/**
 * Reads the scale of one string, and that of another where one is given. What can't be read is told on stderr.
 *
 * @throws UsageError for a string that is not there or has no keys, and for a length out of range
 */
export function keyboardTakes(
  path: string,
  choice: KeyboardChoice,
  chosen: ChosenTargets,
  terminal: Terminal,
): KeyboardResult {
  if ((choice.other === undefined) !== (choice.otherString === undefined)) {
    throw new UsageError("--other SCALE.wav and --other-string NAME are given together.");
  }
  const { targets } = chosen;
  if (targets === null) {
    throw new UsageError(
      "keyboard needs --instrument FILE or --tuning NAME, to know the string and the drones.",
    );
  }
  checkLength(choice.lengthMm);
  const target = melodyString("string", choice.string, targets);
  const otherTarget =
    choice.otherString === undefined ? null : melodyString("other-string", choice.otherString, targets);
  if (otherTarget === target) throw new UsageError("--other-string names the string of --string itself.");
  const scale = readScale(path, target, choice, chosen, targets, terminal);
  if (scale === null) return { document: null, otherFailed: false };
  const other =
    otherTarget === null || choice.other === undefined
      ? null
      : readScale(choice.other, otherTarget, choice, chosen, targets, terminal);
  const isUsable = other !== null && other.reading.keys.length > 0;
  const { a4Hz, tonic, temperament, tuning, capo } = chosen.settings;
  return {
    document: keyboardDocument({
      toolVersion: packageVersion(),
      instrument: chosen.instrumentName,
      settings: { a4Hz, tonic, temperament, tuning, capo },
      scale,
      other: isUsable
        ? { scale: other, comparison: compareKeyboards(scale.reading, other.reading) }
        : undefined,
    }),
    otherFailed: otherTarget !== null && !isUsable,
  };
}

function readScale(
  path: string,
  target: StringTarget,
  choice: KeyboardChoice,
  { instrument, settings }: ChosenTargets,
  targets: readonly StringTarget[],
  terminal: Terminal,
): ReadScale | null {
  const { options, openMidi } = scaleOptions(target, {
    instrument,
    targets,
    settings,
    lengthMm: choice.lengthMm ?? null,
  });
  const reading = readOrTell(path, terminal, (recording, onProgress) =>
    readKeyboard(recording, { ...options, onProgress }),
  );
  if (reading === null) return null;
  if (reading.keys.length === 0) {
    terminal.stderr.write(`gurdybench: ${printable(path)}: no key of ${printable(target.name)} was heard.\n`);
  }
  return { file: path, reading, openMidi };
}

function melodyString(option: string, given: string, targets: readonly StringTarget[]): StringTarget {
  try {
    const [name] = targetNames(option, [given], targets);
    const target = targets.find((one) => one.name === name);
    if (target?.role === "melody") return target;
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error));
    throw error;
  }
  const melody = targets.filter(({ role }) => role === "melody").map(({ name }) => printable(name));
  throw new UsageError(
    `--${option} names "${printable(given)}", which has no keys. Melody strings are: ${melody.join(", ") || "none"}.`,
  );
}

function checkLength(given: number | undefined): void {
  const [allowedMinimum, allowedMaximum] = instrumentRanges.lengthMm;
  if (given === undefined || (given >= allowedMinimum && given <= allowedMaximum)) return;
  const error = new AnalysisError("value-out-of-range", {
    name: "lengthMm",
    given,
    allowedMinimum,
    allowedMaximum,
  });
  throw new UsageError(errorSentence(error));
}
