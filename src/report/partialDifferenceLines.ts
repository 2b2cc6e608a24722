import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type NotedTable, notedTableLines } from "./textTable.js";

const MOST_LISTED = 6;
const HIGHEST_HZ = 1500;

/** The partials below 1.5 kHz at which the sides differ most; all of them are in the JSON. */
export function partialDifferenceLines(document: CompareDocument, sideB: string, width: number): string[] {
  return notedTableLines(partialDifferenceData(document, sideB), width);
}

/** What stands in the table, and how to read it; no rows where no partial was compared. */
export function partialDifferenceData({ partialDifferences }: CompareDocument, sideB: string): NotedTable {
  const all = partialDifferences.filter((one) => one.sideB === sideB && one.frequencyHz < HIGHEST_HZ);
  const listed = [...all]
    .sort((x, y) => Math.abs(y.differenceDb) - Math.abs(x.differenceDb))
    .slice(0, MOST_LISTED)
    .sort((x, y) => x.frequencyHz - y.frequencyHz);
  const hasInterval = listed.some(({ interval95Db }) => interval95Db !== null);
  return {
    columns: [
      { heading: ["partial"], align: "left" },
      { heading: ["Hz"], align: "right" },
      { heading: ["apart", "dB"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
    ],
    rows: listed.map(({ string, number, frequencyHz, differenceDb, interval95Db }) => [
      `${printable(string)}, ${number}`,
      frequencyHz.toFixed(0),
      signed(differenceDb, 1),
      interval95Db === null ? "-" : intervalText(interval95Db, 1),
    ]),
    notes: [
      `Each string's own strength taken out; of ${all.length} partials${hasInterval ? ", each interval by itself, so that one in twenty misses by chance" : ""}.`,
    ],
  };
}
