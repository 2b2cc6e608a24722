import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

const columns: readonly CsvColumn<StringDocument & { readonly file: string }>[] = [
  ["file", ({ file }) => printable(file)],
  ["string", ({ name }) => printable(name)],
  ["role", ({ role }) => role],
  ["status", ({ status }) => status],
  ["targetHz", ({ targetHz }) => targetHz],
  ["frequencyHz", ({ frequencyHz }) => frequencyHz],
  ["deviationCents", ({ deviationCents }) => deviationCents],
  ["interval95LowCents", ({ interval95Cents }) => interval95Cents?.[0] ?? null],
  ["interval95HighCents", ({ interval95Cents }) => interval95Cents?.[1] ?? null],
  ["ownErrorCents", ({ ownErrorCents }) => ownErrorCents],
  ["unsteadinessCents", ({ unsteadinessCents }) => unsteadinessCents],
  ["levelDb", ({ levelDb }) => levelDb],
  ["harmonicToNoiseDb", ({ harmonicToNoiseDb }) => harmonicToNoiseDb],
  ["lowRegisterDb", ({ lowRegisterDb }) => lowRegisterDb],
  ["centroidHz", ({ centroidHz }) => centroidHz],
];

/** The strings of all takes as a table for a spreadsheet, one row each. */
export function measureCsv({ takes }: MeasureDocument): string {
  return columnsCsv(
    columns,
    takes.flatMap(({ file, strings }) => strings.map((string) => ({ ...string, file }))),
  );
}
