import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { bodyLines } from "./bodyLines.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type TextColumn, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

const columns: readonly TextColumn[] = [
  { heading: ["string"], align: "left" },
  { heading: ["takes"], align: "right" },
  { heading: ["off", "cents"], align: "right" },
  { heading: ["95 % sure", "between"], align: "right" },
  { heading: ["from take", "to take"], align: "right" },
  { heading: ["low", "dB"], align: "right" },
  { heading: ["95 % sure", "between"], align: "right" },
];
const anchorColumn: TextColumn = { heading: ["from", "anchor"], align: "right" };

const known = (value: number | null, digits = 1) => (value === null ? "-" : signed(value, digits));
const between = (interval: readonly [number, number] | null) =>
  interval ? intervalText(interval, 1) : "not known";

/**
 * All takes of a call joined: a table of strings and the low register.
 *
 * @param named - the anchor that was named; where it was heard the table counts from it
 */
export function summaryLines(
  summary: MeasureDocument["summary"],
  named: string | null,
  width: number,
): string[] {
  const anchor = summary.strings.some(({ ownErrorTakeCount }) => ownErrorTakeCount > 0) ? named : null;
  const rows = summary.strings.map((string) => [
    printable(string.name),
    ...offCells(string, anchor),
    known(string.lowRegisterDb),
    between(string.lowRegisterInterval95Db),
  ]);
  const { lowRegister } = summary;
  const head = anchor === null ? columns : columns.map((column, i) => (i === 2 ? anchorColumn : column));
  const counted =
    anchor === null
      ? ""
      : `Cents are counted from ${printable(anchor)}, the anchor, over the takes in which it was heard. `;
  const low =
    lowRegister.lowRegisterDb === null
      ? "Low register of all takes: can't be had."
      : `Low register of all takes: ${signed(lowRegister.lowRegisterDb, 1)} dB, 95 %: ` +
        `${between(lowRegister.interval95Db)} (${lowRegister.takeCount} takes).`;
  return [
    ...textTable(head, rows, width),
    "",
    ...wrapText(
      `${counted}${low} Each take counts once. "From take to take" is the standard deviation between takes; with two takes ` +
        "the 95 % range is wide, three to six narrow it quickly.",
      width,
      "  ",
    ),
    ...bodyLines(lowRegister, width),
  ];
}

/** Number of takes, cents off, interval, and spread from take to take: from the target, or from the anchor. */
function offCells(string: MeasureDocument["summary"]["strings"][number], anchor: string | null): string[] {
  if (anchor === null) {
    return [
      String(string.takeCount),
      known(string.deviationCents),
      between(string.interval95Cents),
      string.spreadCents === null ? "one take" : string.spreadCents.toFixed(1),
    ];
  }
  if (string.name === anchor) return [String(string.ownErrorTakeCount), "anchor", "-", "-"];
  return [
    String(string.ownErrorTakeCount),
    known(string.ownErrorCents),
    between(string.ownErrorInterval95Cents),
    string.ownErrorSpreadCents === null ? "one take" : string.ownErrorSpreadCents.toFixed(1),
  ];
}
