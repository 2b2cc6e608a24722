import {
  AnalysisError,
  errorSentence,
  readSympathetic,
  type StringTarget,
  type SympatheticDocument,
  sympatheticDocument,
} from "../src/index.js";
import { type ChosenTargets, namesOf } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { readOrTell } from "./readOrTell.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

/** Which strings are looked for. */
export interface SympatheticChoice {
  /** As typed: each text one name or several with commas between them. */
  readonly strings?: readonly string[];
  readonly all?: true;
}

/**
 * Reads one take of plucked strings.
 *
 * @returns null, and a sentence on stderr, where it can't be read
 * @throws UsageError for strings that are not there, or an instrument without sympathetic strings where none are named
 */
export function readPluckedTake(
  path: string,
  choice: SympatheticChoice,
  chosen: ChosenTargets,
  terminal: Terminal,
): SympatheticDocument | null {
  const targets = pluckedStrings(choice, chosen);
  const { a4Hz, tonic, temperament, tuning, capo, order } = chosen.settings;
  const reading = readOrTell(path, terminal, (recording, onProgress) =>
    readSympathetic(recording, { targets, a4Hz, ...(order !== null && { order }), onProgress }),
  );
  return reading === null
    ? null
    : sympatheticDocument({
        toolVersion: packageVersion(),
        instrument: chosen.instrumentName,
        settings: { a4Hz, tonic, temperament, tuning, capo, order },
        file: path,
        reading,
      });
}

function pluckedStrings(
  { strings, all }: SympatheticChoice,
  { targets }: ChosenTargets,
): readonly StringTarget[] | null {
  if (targets === null) {
    if (strings === undefined && all === undefined) return null;
    throw new UsageError("--strings and --all can only be used with --instrument FILE or --tuning NAME.");
  }
  if (all) return targets;
  if (strings !== undefined) {
    const names = toldAsUsage(() => namesOf("strings", strings, targets));
    return targets.filter(({ name }) => names.includes(name));
  }
  const sympathetic = targets.filter(({ role }) => role === "sympathetic");
  if (sympathetic.length > 0) return sympathetic;
  throw new UsageError(
    "This instrument names no sympathetic strings. Give them the role sympathetic in the instrument file, or " +
      "say which strings were plucked: --strings NAME,NAME or --all.",
  );
}

function toldAsUsage<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error));
    throw error;
  }
}
