import type { HistoryDocument } from "../../history/historyDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type InstrumentDocument = HistoryDocument["instruments"][number];

interface MomentRow {
  readonly instrument: string | null;
  readonly string: string;
  readonly take: InstrumentDocument["takes"][number];
  readonly moment: InstrumentDocument["strings"][number]["takes"][number];
}

const columns: readonly CsvColumn<MomentRow>[] = [
  ["instrument", ({ instrument }) => (instrument === null ? null : printable(instrument))],
  ["string", ({ string }) => printable(string)],
  ["takenAt", ({ take }) => take.takenAt],
  ["takenAtBasis", ({ take }) => take.takenAtBasis],
  ["file", ({ take }) => printable(take.file)],
  ["targetHz", ({ moment }) => moment.targetHz],
  ["frequencyHz", ({ moment }) => moment.frequencyHz],
  ["deviationCents", ({ moment }) => moment.deviationCents],
  ["interval95LowCents", ({ moment }) => moment.interval95Cents?.[0] ?? null],
  ["interval95HighCents", ({ moment }) => moment.interval95Cents?.[1] ?? null],
  ["daysSince", ({ moment }) => moment.change?.days ?? null],
  ["changeCents", ({ moment }) => moment.change?.cents ?? null],
  ["changeInterval95LowCents", ({ moment }) => moment.change?.interval95Cents?.[0] ?? null],
  ["changeInterval95HighCents", ({ moment }) => moment.change?.interval95Cents?.[1] ?? null],
  ["othersCents", ({ moment }) => moment.change?.othersCents ?? null],
  ["ownCents", ({ moment }) => moment.change?.ownCents ?? null],
  ["ownInterval95LowCents", ({ moment }) => moment.change?.ownInterval95Cents?.[0] ?? null],
  ["ownInterval95HighCents", ({ moment }) => moment.change?.ownInterval95Cents?.[1] ?? null],
  ["verdict", ({ moment }) => moment.change?.verdict ?? null],
  ["levelDb", ({ moment }) => moment.levelDb],
  ["temperatureC", ({ take }) => take.temperatureC],
  ["humidityPercent", ({ take }) => take.humidityPercent],
  ["lowRegisterDb", ({ take }) => take.lowRegisterDb],
  ["a4Hz", ({ take }) => take.settings.a4Hz],
  ["work", ({ take }) => (take.work === null ? null : printable(take.work))],
  ["findings", ({ take }) => take.findings.map(printable).join(" ")],
];

/** Every string of every take as a table for a spreadsheet, string by string in order of time. */
export function historyCsv({ instruments }: HistoryDocument): string {
  return columnsCsv(
    columns,
    instruments.flatMap(({ name, takes, strings }) =>
      strings.flatMap((string) =>
        string.takes.map((moment) => ({
          instrument: name,
          string: string.name,
          take: takes[moment.take]!,
          moment,
        })),
      ),
    ),
  );
}
