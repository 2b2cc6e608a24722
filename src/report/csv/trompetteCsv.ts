import type { TrompetteDocument } from "../../trompette/trompetteDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

interface StrokeRow {
  readonly file: string;
  readonly number: number;
  readonly stroke: TrompetteDocument["strokes"][number];
}

const columns: readonly CsvColumn<StrokeRow>[] = [
  ["file", ({ file }) => printable(file)],
  ["stroke", ({ number }) => number],
  ["onsetSeconds", ({ stroke }) => stroke.onsetSeconds],
  ["withinSeconds", ({ stroke }) => stroke.withinSeconds],
  ["durationSeconds", ({ stroke }) => stroke.durationSeconds],
  ["strengthDb", ({ stroke }) => stroke.strengthDb],
  ["weak", ({ stroke }) => (stroke.weak ? "yes" : "no")],
  ["strokeSeconds", ({ stroke }) => stroke.strokeSeconds],
  ["strokeWithinSeconds", ({ stroke }) => stroke.strokeWithinSeconds],
];

/** The strokes of a take as a table for a spreadsheet, one row each. */
export function trompetteCsv({ file, strokes }: TrompetteDocument): string {
  return columnsCsv(
    columns,
    strokes.map((stroke, i) => ({ file, number: i + 1, stroke })),
  );
}
