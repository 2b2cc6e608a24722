import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type Measure = CompareDocument["measures"][number];

const columns: readonly CsvColumn<Measure>[] = [
  ["measure", ({ measure }) => measure],
  ["string", ({ string }) => (string === null ? null : printable(string))],
  ["unit", ({ unit }) => unit],
  ["primary", ({ primary }) => (primary ? "yes" : "no")],
  ["sideA", ({ sideA }) => printable(sideA)],
  ["sideB", ({ sideB }) => printable(sideB)],
  ["meanA", ({ a }) => a],
  ["meanB", ({ b }) => b],
  ["sdA", ({ sdA }) => sdA],
  ["sdB", ({ sdB }) => sdB],
  ["difference", ({ difference }) => difference],
  ["interval95Low", ({ interval95 }) => interval95?.[0] ?? null],
  ["interval95High", ({ interval95 }) => interval95?.[1] ?? null],
  ["pAdjusted", ({ pAdjusted }) => pAdjusted],
  ["smallestDetectable", ({ smallestDetectable }) => smallestDetectable],
  ["takesForOneDb", ({ takesForOneDb }) => takesForOneDb],
  ["verdict", ({ verdict }) => verdict],
];

/** Every measure of a comparison as a table for a spreadsheet, one row each, the takes of both sides in columns of their own. */
export function compareCsv({ measures }: CompareDocument): string {
  return columnsCsv([...columns, ...takeColumns(measures, "A"), ...takeColumns(measures, "B")], measures);
}

function takeColumns(measures: readonly Measure[], side: "A" | "B"): CsvColumn<Measure>[] {
  const takesOf = (one: Measure) => (side === "A" ? one.takesA : one.takesB);
  const most = Math.max(0, ...measures.map((one) => takesOf(one).length));
  return Array.from({ length: most }, (_, take) => [
    `take${side}${take + 1}`,
    (one: Measure) => takesOf(one)[take] ?? null,
  ]);
}
