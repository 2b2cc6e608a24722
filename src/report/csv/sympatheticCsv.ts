import type { SympatheticDocument } from "../../sympathetic/sympatheticDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

interface StringRow {
  readonly file: string;
  readonly string: SympatheticDocument["strings"][number];
}

const columns: readonly CsvColumn<StringRow>[] = [
  ["file", ({ file }) => printable(file)],
  ["string", ({ string }) => printable(string.name)],
  ["status", ({ string }) => string.status],
  ["targetHz", ({ string }) => string.targetHz],
  ["frequencyHz", ({ string }) => string.frequencyHz],
  ["deviationCents", ({ string }) => string.deviationCents],
  ["interval95LowCents", ({ string }) => string.interval95Cents?.[0] ?? null],
  ["interval95HighCents", ({ string }) => string.interval95Cents?.[1] ?? null],
  ["plucks", ({ string }) => string.plucks.length],
  ["spreadCents", ({ string }) => string.spreadCents],
  ["decayInterval95LowSeconds", ({ string }) => string.decayInterval95Seconds?.[0] ?? null],
  ["decayInterval95HighSeconds", ({ string }) => string.decayInterval95Seconds?.[1] ?? null],
  ["answerCents", ({ string }) => string.answerCents],
  ["levelDb", ({ string }) => string.levelDb],
];

/** The plucked strings of a take as a table for a spreadsheet, one row each. */
export function sympatheticCsv({ file, strings }: SympatheticDocument): string {
  return columnsCsv(
    columns,
    strings.map((string) => ({ file, string })),
  );
}
