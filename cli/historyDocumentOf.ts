import { type HistoryDocument, historyDocument, parseMoment, readHistory, readLog } from "../src/index.js";
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
  const sinceDays = since === undefined ? Number.NEGATIVE_INFINITY : startOf(since);
  const instruments = readHistory(
    reading.takes.filter(({ takenAt }) => parseMoment(takenAt)!.days >= sinceDays),
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

/** A day begins at midnight; a take without a time of day is put at noon. */
function startOf(since: string): number {
  const { days, hasTime } = parseMoment(since)!;
  return hasTime ? days : Math.floor(days);
}
