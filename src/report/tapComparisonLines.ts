import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { type NotedTable, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type ComparisonDocument = NonNullable<TapDocument["comparison"]>;
type DifferenceDocument = ComparisonDocument["pairs"][number]["cents"];

const NOTE =
  "!: shown beyond what is unsure in these two recordings (Welch's degrees of freedom, Holm-adjusted over all lines, 5 %). Level " +
  "is counted from the mean of the modes that both have.";

/** Differences of matched modes: frequency, Q, strength, each with its interval. */
export function tapComparisonLines(comparison: ComparisonDocument, width: number): string[] {
  const { columns, rows, notes } = tapComparisonData(comparison);
  if (rows.length === 0) return [];
  return [
    ...textTable(columns, rows, width - 2).map((line) => `  ${line}`),
    ...notes.flatMap((note) => wrapText(note, width, "  ", "  ")),
  ];
}

/** What stands in the table, and how to read it. */
export function tapComparisonData({ pairs }: ComparisonDocument): NotedTable {
  return {
    columns: [
      { heading: ["Hz"], align: "right" },
      { heading: ["against"], align: "right" },
      { heading: ["%"], align: "right" },
      { heading: ["cents", "(95 % between)"], align: "right" },
      { heading: ["Q, %", "(95 % between)"], align: "right" },
      { heading: ["level, dB", "(95 % between)"], align: "right" },
    ],
    rows: pairs.map((pair) => [
      pair.frequencyHzA.toFixed(1),
      pair.frequencyHzB.toFixed(1),
      signed(pair.frequencyPercent, 1),
      told(pair.cents, 0),
      told(pair.qPercent, 0),
      told(pair.strengthDb, 0),
    ]),
    notes: [NOTE],
  };
}

function told({ difference, interval95, shown }: DifferenceDocument, digits: number): string {
  const range = interval95 === null ? "" : ` (${intervalText(interval95, digits).replace(" to ", "..")})`;
  return `${signed(difference, digits)}${range}${shown ? "!" : " "}`;
}
