import type { StringTarget } from "../../instrument/Instrument.js";
import { printable } from "../printable.js";
import type { ListedTuning } from "../tuningTable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

const columns: readonly CsvColumn<StringTarget & { readonly tuning: string }>[] = [
  ["tuning", ({ tuning }) => printable(tuning)],
  ["string", ({ name }) => printable(name)],
  ["role", ({ role }) => role],
  ["note", ({ note }) => printable(note)],
  ["targetHz", ({ targetHz }) => targetHz],
];

/** Tunings as a table for a spreadsheet, one row for each string of each. */
export function tuningsCsv(tunings: readonly ListedTuning[]): string {
  return columnsCsv(
    columns,
    tunings.flatMap(({ name, targets }) => targets.map((target) => ({ ...target, tuning: name }))),
  );
}
