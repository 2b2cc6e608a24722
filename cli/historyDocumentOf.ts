import {
  type HistoryDocument,
  historyDocument,
  parseMoment,
  readHistory,
  readLog,
  takesSince,
} from "../src/index.js";
import { readLogFile } from "./files/logFile.js";
import { packageVersion } from "./files/packageFile.js";
import { UsageError } from "./UsageError.js";

/** Options of `history`. */
export interface HistoryChoice {
  readonly string?: readonly string[];
  readonly since?: string;
}

/**
 * Reads a log.
 *
 * @throws UsageError for a string that no take has
 */
export function historyDocumentOf(log: string, { string: strings, since }: HistoryChoice): HistoryDocument {
  const reading = readLog(readLogFile(log));
  const instruments = readHistory(
    since === undefined ? reading.takes : takesSince(reading.takes, parseMoment(since)!),
  );
  const known = new Set(instruments.flatMap((one) => one.strings.map(({ name }) => name)));
  const unknown = strings?.find((name) => !known.has(name));
  if (unknown !== undefined && instruments.length > 0)
    throw new UsageError(
      `--string names "${unknown}", which no take in this log heard. They heard: ${[...known].join(", ")}.`,
    );
  return historyDocument({
    toolVersion: packageVersion(),
    log,
    settings: { strings: strings === undefined ? null : [...strings], since: since ?? null },
    reading,
    instruments,
  });
}
