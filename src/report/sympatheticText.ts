import type { SympatheticDocument } from "../sympathetic/sympatheticDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { sympatheticCharacterData, sympatheticPitchData } from "./sympatheticTables.js";
import { type TableData, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

/** What the column heads mean. */
export const sympatheticTerms = [
  "Heard: the first partial, once the glide of the pluck is over. Off: cents from the target, + is sharp. 95 % sure " +
    "between: by how well each pluck can be read, and where a string was plucked again by how much plucks differ.",
  "Rings: time in which the first partial falls by 60 dB. Answers: a bowed note this far off makes the string answer with " +
    "half its power.",
  "Octave: by how much the second partial is wider than one, for the string's stiffness. Glide: how sharp the string " +
    "was 50 ms after the pluck. Level: 0 dB is a sine as strong as the file can hold; it holds how hard you plucked.",
];

/** The sheet of plucked strings: what to do first, then every string, then what to be careful about. */
export function sympatheticText(document: SympatheticDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const { strings } = document;
  const heard = strings.filter(({ status }) => status === "measured");
  const plucks = heard.reduce((sum, string) => sum + string.plucks.length, 0) + document.strays.length;
  const findings = [...document.findings, ...strings.flatMap((string) => string.findings)];
  const lines = [
    ...wrapText(
      `${printable(document.file)}: ${document.durationSeconds.toFixed(1)} s, ${plucks} ${plucks === 1 ? "pluck" : "plucks"}, ` +
        `A4 = ${document.settings.a4Hz} Hz.`,
      width,
    ),
    ...section(
      paint.heading("In short"),
      document.inShort.flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...section(paint.heading("Strings"), tableLines(sympatheticPitchData(strings), width)),
    ...section(paint.heading("How each is"), tableLines(sympatheticCharacterData(heard), width)),
    ...section(paint.heading("Cautions"), findingLines(findings, paint, width)),
    ...(heard.length === 0 ? [] : ["", ...sympatheticTerms.flatMap((text) => wrapText(text, width))]),
  ];
  return `${lines.join("\n")}\n`;
}

/** A table set in from the edge; nothing where it has no row. */
function tableLines({ columns, rows }: TableData, width: number): string[] {
  return rows.length === 0 ? [] : textTable(columns, rows, width - 2).map((line) => `  ${line}`);
}
