import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import { bodyLines } from "./bodyLines.js";
import { findingLines } from "./findingLines.js";
import { keyDifferenceLines } from "./keyDifferenceLines.js";
import { keyLines } from "./keyLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { wrapText } from "./wrapText.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;

/** What the column heads mean. */
export const keyTerms =
  "off: cents from the key's place over the open string, + is sharp. 95 % sure between: by how unsteady key and open string " +
  "were, the swing of the wheel taken out. Move: of the edge of the tangent.";

/** The sheet of a keyboard: what to do first, then every key, then what to be careful about. */
export function keyboardText(document: KeyboardDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const { other } = document;
  const lines = [
    ...keyHeadLines(document, document, width),
    ...section(
      paint.heading("In short"),
      document.inShort.flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...section(paint.heading(`Keys of ${printable(document.string)}`), keyLines(document, width)),
    ...(other === null
      ? []
      : [
          "",
          ...keyHeadLines(document, other, width),
          ...section(paint.heading(`Keys of ${printable(other.string)}`), keyLines(other, width)),
          ...section(
            paint.heading(`${printable(document.string)} against ${printable(other.string)}`),
            keyDifferenceLines(document, width),
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
    ...(document.keys.length === 0 ? [] : ["", ...wrapText(keyTerms, width)]),
  ];
  return `${lines.join("\n")}\n`;
}

/** The string, its open pitch, and what is known of its length and swing. */
export function keyHeadLines({ settings }: KeyboardDocument, scale: ScaleDocument, width: number): string[] {
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
