import type { LoggedTake } from "../history/logLineSchema.js";
import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { documentJson } from "./documentJson.js";

/** What a log line says besides what was measured. */
export interface LogNotes {
  /** Name of the recording, without its folder. */
  readonly file: string;
  readonly takenAt: string;
  readonly takenAtBasis: LoggedTake["takenAtBasis"];
  readonly temperatureC: number | null;
  readonly humidityPercent: number | null;
  readonly work: string | null;
}

/**
 * A measured take as one line of a log, with its line end. It holds no character that a reader of text could stumble over: what
 * `documentJson` escapes, and the sign for bytes that are no text, so that this sign as such shows a damaged file.
 */
export function logLine(
  { instrument, settings, toolVersion }: Pick<MeasureDocument, "instrument" | "settings" | "toolVersion">,
  take: MeasureDocument["takes"][number],
  notes: LogNotes,
): string {
  const { a4Hz, tonic, temperament, tuning, capo, lowEdgeHz } = settings;
  const codes = [...take.findings, ...take.strings.flatMap(({ findings }) => findings)].map(
    ({ code }) => code,
  );
  const line: LoggedTake = {
    schemaVersion: 1,
    tool: "gurdybench",
    kind: "take",
    toolVersion,
    instrument,
    ...notes,
    settings: { a4Hz, tonic, temperament, tuning, capo, lowEdgeHz },
    strings: take.strings.map((string) => ({
      name: string.name,
      role: string.role,
      targetHz: string.targetHz,
      status: string.status,
      frequencyHz: string.frequencyHz,
      deviationCents: string.deviationCents,
      interval95Cents: string.interval95Cents,
      levelDb: string.levelDb,
    })),
    lowRegisterDb: take.lowRegister?.lowRegisterDb ?? null,
    findings: [...new Set(codes)],
  };
  return documentJson(line, 0).replaceAll("\ufffd", "\\ufffd");
}
