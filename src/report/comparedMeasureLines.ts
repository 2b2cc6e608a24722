import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { measureLabel } from "./measureLabel.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type Measure = CompareDocument["measures"][number];

/** All measures besides the primary one: those of the take and the low part of each string always, partials where something was shown. */
export function comparedMeasureLines({ sides, measures }: CompareDocument, width: number): string[] {
  const others = measures.filter(({ primary }) => !primary);
  if (others.length === 0) return [];
  const isListed = (one: Measure) => one.verdict !== "not-shown" || !one.measure.startsWith("partial");
  const listed = others.filter(isListed);
  const manySides = sides.length > 2;
  const rows = listed.map((one) => [
    measureLabel(one) + (manySides ? `, ${printable(one.sideB)}` : ""),
    value(one, one.a),
    value(one, one.b),
    signed(one.difference, digits(one)),
    one.interval95 === null ? "-" : intervalText(one.interval95, digits(one)),
    verdict(one),
  ]);
  const table = textTable(
    [
      {
        heading: [`${printable(sides[0].name)} against ${manySides ? "..." : printable(sides[1].name)}`],
        align: "left",
      },
      { heading: [manySides ? "first" : short(sides[0].name)], align: "right" },
      { heading: [manySides ? "other" : short(sides[1].name)], align: "right" },
      { heading: ["apart"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["shown?"], align: "left" },
    ],
    rows,
    width,
  );
  const left = others.length - listed.length;
  return [
    ...table,
    "",
    ...wrapText(
      `In dB, where nothing else stands there. "Shown" holds for all ${others.length} measures together (Holm, 2 %), the intervals for each by itself.` +
        (left === 0 ? "" : ` Single partials that no difference is shown of are not listed (${left}).`),
      width,
      "  ",
    ),
  ];
}

function digits({ unit }: Measure): number {
  return unit === "Hz" ? 0 : 1;
}

function value(one: Measure, number: number): string {
  return one.unit === "Hz" ? `${number.toFixed(0)} Hz` : signed(number, 1);
}

function verdict({ verdict, pAdjusted, sideA, sideB }: Measure): string {
  if (pAdjusted === null) return "can't be said";
  if (verdict === "not-shown") return "no";
  return `${printable(verdict === "a-higher" ? sideA : sideB)} higher`;
}

function short(name: string): string {
  return printable(name).slice(0, 12);
}
