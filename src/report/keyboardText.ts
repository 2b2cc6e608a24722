import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import { bodyLines } from "./bodyLines.js";
import { findingLines } from "./findingLines.js";
import { intervalText } from "./intervalText.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { signed } from "./signed.js";
import { textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;
type KeyDocument = KeyboardDocument["keys"][number];

const TERMS =
  "off: cents from the key's place over the open string, + is sharp. 95 % sure between: by how unsteady key and open string " +
  "were, the swing of the wheel taken out. Move: of the edge of the tangent.";

/** The sheet of a keyboard: what to do first, then every key, then what to be careful about. */
export function keyboardText(document: KeyboardDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const { other } = document;
  const lines = [
    ...headLines(document, document, width),
    ...section(
      paint.heading("In short"),
      document.inShort.flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...section(paint.heading(`Keys of ${printable(document.string)}`), keyLines(document, width)),
    ...(other === null
      ? []
      : [
          "",
          ...headLines(document, other, width),
          ...section(paint.heading(`Keys of ${printable(other.string)}`), keyLines(other, width)),
          ...section(
            paint.heading(`${printable(document.string)} against ${printable(other.string)}`),
            differenceLines(document, width),
          ),
        ]),
    ...section(
      paint.heading("The body, as these keys show it"),
      document.keys.length === 0 ? [] : bodyLines(document, width, true),
    ),
    ...section(paint.heading("Cautions"), findingLines(document.findings, paint, width)),
    ...(other === null
      ? []
      : section(
          paint.heading(`Cautions for ${printable(other.string)}`),
          findingLines(other.findings, paint, width),
        )),
    ...(document.keys.length === 0 ? [] : ["", ...wrapText(TERMS, width)]),
  ];
  return `${lines.join("\n")}\n`;
}

function headLines({ settings }: KeyboardDocument, scale: ScaleDocument, width: number): string[] {
  const open =
    scale.openBasis === "heard"
      ? `open string heard at ${scale.openHz.toFixed(2)} Hz`
      : `open string not heard, taken at its target of ${scale.openHz.toFixed(2)} Hz`;
  const length = scale.lengthMm === null ? "length not known" : `${scale.lengthMm} mm from nut to bridge`;
  const swing =
    scale.swingCents === null || scale.swingRateHz === null
      ? ""
      : ` The pitch swings by ${scale.swingCents.toFixed(1)} cents to either side, ${scale.swingRateHz.toFixed(1)} times a second; that is taken out.`;
  const temperament = (settings.temperament ?? "equal").replace("quarter-comma-", "quarter-comma ");
  return wrapText(
    `${printable(scale.string)} in ${printable(scale.file)}: ${open}, ${length}, keys ${temperament}.${swing}`,
    width,
  );
}

function keyLines(scale: ScaleDocument, width: number): string[] {
  if (scale.keys.length === 0) return [];
  const hasMm = scale.lengthMm !== null;
  const hasShift = scale.pattern.constantCents !== null || scale.pattern.bridgeCents !== null;
  const hasRemarks = scale.keys.some(({ harsh, unsteady }) => harsh || unsteady);
  const columns = [
    { heading: ["key"], align: "right" as const },
    { heading: ["note"], align: "left" as const },
    { heading: ["heard", "Hz"], align: "right" as const },
    { heading: ["off", "cents"], align: "right" as const },
    { heading: ["95 % sure", "between"], align: "right" as const },
    ...(hasMm
      ? [{ heading: hasShift ? ["move, as", "it is, mm"] : ["move", "mm"], align: "right" as const }]
      : []),
    ...(hasMm ? [{ heading: ["towards"], align: "left" as const }] : []),
    ...(hasShift ? [{ heading: ["left after", "the shift"], align: "right" as const }] : []),
    ...(hasShift && hasMm ? [{ heading: ["towards"], align: "left" as const }] : []),
    ...(hasRemarks ? [{ heading: [""], align: "left" as const }] : []),
  ];
  const rows = scale.keys.map((key) => [
    String(key.key),
    key.note,
    key.frequencyHz.toFixed(2),
    signed(key.deviationCents, 1),
    intervalText(key.interval95Cents, 1),
    ...(hasMm ? [(key.tangentMoveMm ?? 0).toFixed(1), wayOf(key.tangentMoveMm, key.towards)] : []),
    ...(hasShift
      ? [
          hasMm ? `${(key.tangentMoveAfterShiftMm ?? 0).toFixed(1)} mm` : signed(key.leftCents, 1),
          ...(hasMm ? [wayOf(key.tangentMoveAfterShiftMm, key.towardsAfterShift)] : []),
        ]
      : []),
    ...(hasRemarks ? [remark(key)] : []),
  ]);
  return textTable(columns, rows, width - 2).map((line) => `  ${line}`);
}

function wayOf(moveMm: number | null, towards: KeyDocument["towards"]): string {
  return moveMm !== null && moveMm < 0.05 ? "-" : (towards ?? "-");
}

function remark({ harsh, unsteady }: KeyDocument): string {
  return [harsh ? "harsh" : "", unsteady ? "unsteady" : ""].filter((word) => word !== "").join(", ");
}

function differenceLines({ differences, string, other }: KeyboardDocument, width: number): string[] {
  if (differences.length === 0) return [];
  const rows = differences.map((one) => [
    String(one.key),
    one.note,
    signed(one.deviationCents, 1),
    signed(one.otherDeviationCents, 1),
    signed(one.differenceCents, 1),
    intervalText(one.interval95Cents, 1),
    one.disagrees ? "disagree" : "",
  ]);
  return textTable(
    [
      { heading: ["key"], align: "right" },
      { heading: ["note"], align: "left" },
      { heading: [printable(string), "off"], align: "right" },
      { heading: [printable(other?.string ?? ""), "off"], align: "right" },
      { heading: ["apart", "cents"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`);
}
