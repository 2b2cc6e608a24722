import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

/** Difference of the body curves, band by band, with the band in which the whole difference lies. */
export function bodyCurveDifferenceLines(
  { bodyCurveDifference }: CompareDocument,
  sideB: string,
  width: number,
): string[] {
  const points = bodyCurveDifference.filter((one) => one.sideB === sideB);
  if (points.length === 0) return [];
  const isShown = (interval: readonly [number, number] | null) =>
    interval !== null && (interval[0] > 0 || interval[1] < 0);
  const shown = points.filter(({ interval95Db }) => isShown(interval95Db));
  const verdict = points.every(({ interval95Db }) => interval95Db === null)
    ? "How surely can't be said from these takes."
    : shown.length === 0
      ? "No part of it is shown to differ: the band holds 0 everywhere."
      : `Shown to differ, all bands looked at together, at ${shown.map(({ frequencyHz }) => `${frequencyHz.toFixed(0)} Hz`).join(", ")}.`;
  return [
    ...textTable(
      [
        { heading: ["third-octave", "around, Hz"], align: "right" },
        { heading: ["apart", "dB"], align: "right" },
        { heading: ["the whole lies", "95 % between"], align: "right" },
        { heading: [""], align: "left" },
      ],
      points.map(({ frequencyHz, differenceDb, interval95Db }) => [
        frequencyHz.toFixed(0),
        signed(differenceDb, 1),
        interval95Db === null ? "-" : intervalText(interval95Db, 1),
        isShown(interval95Db) ? "differs" : "",
      ]),
      width,
    ),
    "",
    ...wrapText(
      `${verdict} Each curve stands against its own middle from 355 to 1413 Hz. It is known where partials lie: of a narrow peak ` +
        "or dip between them it shows little, and the range holds the scatter of the takes only.",
      width,
      "  ",
    ),
  ];
}
