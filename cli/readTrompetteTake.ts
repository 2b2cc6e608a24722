import {
  AnalysisError,
  errorSentence,
  printable,
  readTrompette,
  type StringTarget,
  type TrompetteDocument,
  targetNames,
  trompetteDocument,
  trompetteStrings,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { packageVersion } from "./files/packageFile.js";
import { readOrTell } from "./readOrTell.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

/**
 * Reads one take of the trompette.
 *
 * @returns null, and a sentence on stderr, where it can't be read
 * @throws UsageError for a string that is not there
 */
export function readTrompetteTake(
  path: string,
  given: string | undefined,
  chosen: ChosenTargets,
  terminal: Terminal,
): TrompetteDocument | null {
  const string = chosenString(given, chosen.targets);
  const { a4Hz, tonic, temperament, tuning, capo } = chosen.settings;
  const options = {
    ...trompetteStrings(string, chosen.targets),
    ...(chosen.turnsPerSecond !== null && { turnsPerSecond: chosen.turnsPerSecond }),
  };
  const reading = readOrTell(path, terminal, (recording, onProgress) =>
    readTrompette(recording, { ...options, onProgress }),
  );
  return reading === null
    ? null
    : trompetteDocument({
        toolVersion: packageVersion(),
        instrument: chosen.instrumentName,
        settings: { a4Hz, tonic, temperament, tuning, capo, turnsPerSecond: chosen.turnsPerSecond },
        file: path,
        reading,
      });
}

/** The string named, or the instrument's trompette; null where neither instrument nor tuning is named. */
function chosenString(
  given: string | undefined,
  targets: readonly StringTarget[] | null,
): StringTarget | null {
  if (targets === null) {
    if (given === undefined) return null;
    throw new UsageError("--string can only be used with --instrument FILE or --tuning NAME.");
  }
  if (given !== undefined) {
    try {
      const [name] = targetNames("string", [given], targets);
      return targets.find((one) => one.name === name) ?? null;
    } catch (error) {
      if (error instanceof AnalysisError) throw new UsageError(errorSentence(error));
      throw error;
    }
  }
  const own = targets.filter(({ role }) => role === "trompette");
  if (own.length === 1) return own[0];
  const all = (own.length > 1 ? own : targets).map(({ name }) => printable(name)).join(", ");
  throw new UsageError(
    own.length > 1
      ? `The instrument has ${own.length} trompettes. Say which with --string NAME: ${all}.`
      : `The instrument names no trompette. Say which string it is with --string NAME: ${all}.`,
  );
}
