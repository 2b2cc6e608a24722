import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type NotedTable, notedTableLines } from "./textTable.js";

/** The low part of every take, side by side, with mean and spread: nothing hidden behind a mean. */
export function sideLines(document: CompareDocument, width: number): string[] {
  return notedTableLines(sideTableData(document), width);
}

/** What stands in the table, and how to read it; no rows where nothing was compared. */
export function sideTableData({ sides, measures, ranking, settings }: CompareDocument): NotedTable {
  const primary = measures.filter((one) => one.primary);
  const takesOf = (name: string) =>
    primary.flatMap((one) =>
      one.sideA === name ? [one.takesA] : one.sideB === name ? [one.takesB] : [],
    )[0] ?? [];
  const spreadOf = (name: string) =>
    primary.flatMap((one) => (one.sideA === name ? [one.sdA] : one.sideB === name ? [one.sdB] : []))[0] ??
    null;
  const rows = ranking.map(({ name, lowRegisterDb, interval95Db }) => {
    const spread = spreadOf(name);
    return [
      printable(name),
      signed(lowRegisterDb, 1),
      interval95Db === null ? "-" : intervalText(interval95Db, 1),
      spread === null ? "-" : spread.toFixed(1),
      takesOf(name)
        .map((value) => signed(value, 1))
        .join(" "),
    ];
  });
  const pairs =
    sides.length === 2
      ? ""
      : ` Each side is tested against the first named, ${printable(sides[0].name)}; of the others only the table speaks.`;
  const spreads = sides.map(({ name }) => spreadOf(name)).filter((one) => one !== null);
  const noise =
    spreads.length === 0
      ? "With one take a side nothing is known of the spread between takes."
      : `Takes of one side differ by ${spreadWords(spreads)} dB (one standard deviation): that is the noise of your set-up. ` +
        "Compare an instrument with itself, newly placed each time, to know it better.";
  return {
    columns: [
      { heading: ["side"], align: "left" },
      { heading: ["mean", "dB"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["spread", "dB"], align: "right" },
      { heading: ["each take", "dB"], align: "left" },
    ],
    rows: primary.length === 0 ? [] : rows,
    notes: [
      `The low part is the power from 44.7 to ${settings.lowEdgeHz.toFixed(0)} Hz over that from there to 2818 Hz, in dB.${pairs} ${noise}`,
    ],
  };
}

function spreadWords(spreads: readonly number[]): string {
  const [low, high] = [Math.min(...spreads).toFixed(1), Math.max(...spreads).toFixed(1)];
  return low === high ? low : `${low} to ${high}`;
}
