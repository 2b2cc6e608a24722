import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import type { TextOptions } from "./measureText.js";
import { type Paint, paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { stringingAnswer } from "./stringingAnswer.js";
import { besideTableData, tensionTableData } from "./stringingTables.js";
import { notedTableLines } from "./textTable.js";
import { wrapText } from "./wrapText.js";

/** Tensions of an instrument's strings, for people: the answer first, then a table, and what to mind. */
export function stringingText(document: StringingDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const lines = [
    ...wrapText(stringingHead(document, paint), width, "", "  "),
    ...section(
      paint.heading("In short"),
      stringingAnswer(document).flatMap((one) => wrapText(one, width, "  ")),
    ),
    ...section(paint.heading("Strings"), notedTableLines(tensionTableData(document), width)),
    ...section(
      paint.heading("Capos"),
      capoSentences(document).flatMap((one) => wrapText(one, width, "  ", "    ")),
    ),
    ...section(
      paint.heading(`Beside it: ${printable(document.against ?? "")}`),
      besideLines(document, width),
    ),
    ...section(
      paint.heading("Mind"),
      stringingCautions.flatMap((one) => wrapText(one, width, "  - ")),
    ),
  ];
  return `${lines.join("\n")}\n`;
}

/** What the strings are of, and how the tension is had. */
export function stringingHead({ instrument, settings }: StringingDocument, paint: Paint): string {
  return (
    `${paint.heading("Instrument:")} ${printable(instrument)}. A4 = ${settings.a4Hz} Hz. Tension from pitch, vibrating ` +
    "length and weight (Mersenne's law)."
  );
}

/** Where no string has the name of one beside it. */
export const noneBeside = "No string of the same name.";

function besideLines(document: StringingDocument, width: number): string[] {
  if (document.comparison?.length === 0) return wrapText(noneBeside, width, "  ");
  return notedTableLines(besideTableData(document), width);
}

/** Before anyone brings a string up. */
export const stringingCautions = [
  "Raise pitch in small steps and protect your eyes: a string brought up too far snaps, and its end flies.",
  "Strengths are those of new, straight wire by a handbook; a string that was bent, scratched or knotted holds less. The string maker's limits come first.",
  "More tension is more pull on bridge, tailpiece, pegs and top: whether the instrument bears it is for its builder to say.",
];

/** Where capos stop their strings, in sentences. */
export function capoSentences({ strings }: StringingDocument): string[] {
  return strings.flatMap(({ name, capo }) =>
    capo.map(
      ({ semitones, fromNutMm }) =>
        `${printable(name)} raised by ${semitones}: stopped ${fromNutMm.toFixed(1)} mm from the nut. The tension stays; pressing it down adds a little.`,
    ),
  );
}
