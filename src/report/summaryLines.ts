import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
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

/** All takes of a call joined: a table of strings and the low register. */
export function summaryLines(summary: MeasureDocument["summary"], width: number): string[] {
  const known = (value: number | null, digits = 1) => (value === null ? "-" : signed(value, digits));
  const between = (interval: readonly [number, number] | null) =>
    interval ? intervalText(interval, 1) : "not known";
  const rows = summary.strings.map((string) => [
    printable(string.name),
    String(string.takeCount),
    known(string.deviationCents),
    between(string.interval95Cents),
    string.spreadCents === null ? "one take" : string.spreadCents.toFixed(1),
    known(string.lowRegisterDb),
    between(string.lowRegisterInterval95Db),
  ]);
  const { lowRegister } = summary;
  const low =
    lowRegister.lowRegisterDb === null
      ? "Low register of all takes: can't be had."
      : `Low register of all takes: ${signed(lowRegister.lowRegisterDb, 1)} dB, 95 %: ` +
        `${between(lowRegister.interval95Db)} (${lowRegister.takeCount} takes).`;
  return [
    ...textTable(columns, rows, width),
    "",
    ...wrapText(
      `${low} Each take counts once. "From take to take" is the standard deviation between takes; with two takes ` +
        "the 95 % range is wide, three to six narrow it quickly.",
      width,
      "  ",
    ),
  ];
}
