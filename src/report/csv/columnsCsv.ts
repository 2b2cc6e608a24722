import { type CsvCell, csvText } from "./csvText.js";

/** A column of a table for a spreadsheet: its heading, and what stands in it for a row. */
export type CsvColumn<Row> = readonly [heading: string, value: (row: Row) => CsvCell];

/** Rows under the headings of their columns, as comma-separated values. */
export function columnsCsv<Row>(columns: readonly CsvColumn<Row>[], rows: readonly Row[]): string {
  return csvText([
    columns.map(([heading]) => heading),
    ...rows.map((row) => columns.map(([, value]) => value(row))),
  ]);
}
