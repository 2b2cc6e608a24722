import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { displayWidth } from "./displayWidth.js";
import { intervalText } from "./intervalText.js";
import { measureLabel } from "./measureLabel.js";
import { printable } from "./printable.js";
import { shorten } from "./shorten.js";
import { signed } from "./signed.js";
import { type NotedTable, notedTableLines, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type Measure = CompareDocument["measures"][number];

const HEADING_WIDTH = 10;

/** All measures of one pair of sides besides the primary one: those of the take and the low part of each string always, partials where something was shown. */
export function comparedMeasureLines(document: CompareDocument, sideB: string, width: number): string[] {
  const data = comparedMeasureData(document, sideB, headingOf);
  const whole = textTable(data.columns, data.rows, Number.POSITIVE_INFINITY);
  // Six measures that all read "octave b…" say less than a difference without the two values it is made of.
  const fits = whole.every((line) => displayWidth(line) <= width);
  const narrow = {
    ...data,
    columns: data.columns.filter(isNoSide),
    rows: data.rows.map((row) => row.filter((_, i) => isNoSide(null, i))),
  };
  return notedTableLines(fits ? data : narrow, width);
}

/**
 * What stands in the table, and how to read it; no rows where nothing else was compared.
 *
 * @param headed - a side's name as the lines of a heading
 */
export function comparedMeasureData(
  { sides, measures }: CompareDocument,
  sideB: string,
  headed: (name: string) => readonly string[] = (name) => [printable(name)],
): NotedTable {
  const tested = measures.filter(({ primary }) => !primary);
  const others = tested.filter((one) => one.sideB === sideB);
  const listed = others.filter(isListed);
  const rows = listed.map((one) => [
    measureLabel(one),
    value(one, one.a),
    value(one, one.b),
    one.unit === "Hz" ? `${signed(one.difference, 0)} Hz` : signed(one.difference, 1),
    one.interval95 === null ? "-" : intervalText(one.interval95, digits(one)),
    verdict(one),
  ]);
  const left = others.length - listed.length;
  return {
    columns: [
      { heading: ["measure"], align: "left" },
      { heading: headed(sides[0].name), align: "right" },
      { heading: headed(sideB), align: "right" },
      { heading: ["apart"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["shown?"], align: "left" },
    ],
    rows,
    notes: [
      `In dB, where nothing else stands there. ${heldWords(tested)}` +
        (left === 0 ? "" : ` Single partials that no difference is shown of are not listed (${left}).`),
    ],
  };
}

/** Single partials are told where something is shown of them. */
export function isListed({ verdict, measure }: Measure): boolean {
  return verdict !== "not-shown" || !measure.startsWith("partial");
}

function heldWords(tested: readonly Measure[]): string {
  const count = tested.filter(({ pAdjusted }) => pAdjusted !== null).length;
  return count === 0
    ? "Nothing was tested: that takes two takes a side at least, each newly placed."
    : `"Shown" holds for all ${count} measures together (Holm, 2 %), the intervals for each by itself.`;
}

function isNoSide(_: unknown, column: number): boolean {
  return column !== 1 && column !== 2;
}

function digits({ unit }: Measure): number {
  return unit === "Hz" ? 0 : 1;
}

function value(one: Measure, number: number): string {
  return one.unit === "Hz" ? `${number.toFixed(0)} Hz` : signed(number, 1);
}

function verdict({ verdict, pAdjusted }: Measure): string {
  if (pAdjusted === null) return "can't say";
  return verdict === "not-shown" ? "no" : "yes";
}

/** A side's name on two lines at most, to keep its column narrow. */
function headingOf(name: string): string[] {
  const lines = wrapText(printable(name), HEADING_WIDTH);
  return lines.slice(0, 2).map((line) => shorten(line, HEADING_WIDTH));
}
