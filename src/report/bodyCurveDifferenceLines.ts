import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { type NotedTable, notedTableLines } from "./textTable.js";

/** Difference of the body curves, band by band, with the band in which the whole difference lies. */
export function bodyCurveDifferenceLines(document: CompareDocument, sideB: string, width: number): string[] {
  return notedTableLines(bodyCurveDifferenceData(document, sideB), width);
}

/** What stands in the table, and how to read it; no rows where no curve was compared. */
export function bodyCurveDifferenceData({ bodyCurveDifference }: CompareDocument, sideB: string): NotedTable {
  const points = bodyCurveDifference.filter((one) => one.sideB === sideB);
  const isShown = (interval: readonly [number, number] | null) =>
    interval !== null && (interval[0] > 0 || interval[1] < 0);
  const shown = points.filter(({ interval95Db }) => isShown(interval95Db));
  const verdict = points.every(({ interval95Db }) => interval95Db === null)
    ? "How surely can't be said from these takes."
    : shown.length === 0
      ? "No part of it is shown to differ: the band holds 0 everywhere."
      : `Shown to differ, all bands looked at together, at ${shown.map(({ frequencyHz }) => `${frequencyHz.toFixed(0)} Hz`).join(", ")}.`;
  return {
    columns: [
      { heading: ["third-octave", "around, Hz"], align: "right" },
      { heading: ["apart", "dB"], align: "right" },
      { heading: ["the whole lies", "95 % between"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows: points.map(({ frequencyHz, differenceDb, interval95Db }) => [
      frequencyHz.toFixed(0),
      signed(differenceDb, 1),
      interval95Db === null ? "-" : intervalText(interval95Db, 1),
      isShown(interval95Db) ? "differs" : "",
    ]),
    notes: [
      `${verdict} Each curve stands against its own middle from 355 to 1413 Hz. It is known where partials lie: of a narrow peak ` +
        "or dip between them it shows little, and the range holds the scatter of the takes only.",
    ],
  };
}
