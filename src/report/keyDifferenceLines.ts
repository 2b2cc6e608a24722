import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type TableData, textTable } from "./textTable.js";

/** Every key that two strings share, and how far apart its tangents set them. */
export function keyDifferenceLines(document: KeyboardDocument, width: number): string[] {
  const { columns, rows } = keyDifferenceData(document);
  return rows.length === 0 ? [] : textTable(columns, rows, width - 2).map((line) => `  ${line}`);
}

/** What stands in the table. */
export function keyDifferenceData({ differences, string, other }: KeyboardDocument): TableData {
  const rows = differences.map((one) => [
    String(one.key),
    one.note,
    signed(one.deviationCents, 1),
    signed(one.otherDeviationCents, 1),
    signed(one.differenceCents, 1),
    intervalText(one.interval95Cents, 1),
    one.disagrees ? "disagree" : "",
  ]);
  return {
    columns: [
      { heading: ["key"], align: "right" },
      { heading: ["note"], align: "left" },
      { heading: [printable(string), "off"], align: "right" },
      { heading: [printable(other?.string ?? ""), "off"], align: "right" },
      { heading: ["apart", "cents"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
  };
}
