import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { type TableData, textTable } from "./textTable.js";
import { trompetteAdvice } from "./trompetteAdvice.js";
import { trompettePitchData, trompetteStrokeData, trompetteTogetherData } from "./trompetteTables.js";
import { wrapText } from "./wrapText.js";

/** What to be careful about. */
export const trompetteCaution =
  "Stop the wheel before you touch tirant or bridge. A string brought up too far snaps: protect your eyes, turn pegs in small steps. Hair, cuffs " +
  "and fingers clear of the wheel; a buzz close to the ear is loud.";

/** What the column heads mean. */
export const trompetteTerms =
  "begins: where the buzz is first heard, with its first knock of half the usual amplitude or more (where it has no separate knocks, where its amplitude passes half of its rise); +-: 95 of 100 onsets like it lie this near; about: less well than to 10 ms. The wrist strikes up to a knock " +
  "or two earlier, which nothing in the sound tells exactly: pace and evenness are of the strokes as the rise of the whole buzz shows them. lasts: until it falls below half, or " +
  "the next begins. strength: power the buzz adds above 1 kHz while it lasts, over that of the tone; rooms and microphones are in it. Single onsets " +
  "and strengths describe this take.";

/** What a take says about the buzzing bridge, for people: the answer first, then strength and evenness, pitch, each stroke. */
export function trompetteText(document: TrompetteDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const sentences = (texts: readonly string[]) => texts.flatMap((text) => wrapText(text, width, "  ", "  "));
  const each = trompetteStrokeData(document);
  const lines = [
    ...wrapText(
      `${paint.heading(printable(document.file))}, ${document.durationSeconds.toFixed(1)} s`,
      width,
    ),
    ...section(paint.heading("In short"), sentences(document.inShort)),
    ...section(paint.heading("The recording"), findingLines(graveFindings(document), paint, width)),
    ...section(paint.heading("Strokes together"), tableLines(trompetteTogetherData(document), width)),
    ...section(paint.heading("Pitch"), tableLines(trompettePitchData(document), width)),
    ...section(paint.heading("Each stroke"), [
      ...tableLines(each, width),
      ...each.notes.flatMap((note) => wrapText(note, width, "  ")),
    ]),
    ...section(paint.heading("To know"), findingLines(mildFindings(document), paint, width)),
    ...section(paint.heading("What to try"), sentences(trompetteAdvice(document))),
    ...section(paint.heading("Caution"), sentences([trompetteCaution])),
    ...(document.strokes.length > 0 ? ["", ...wrapText(trompetteTerms, width, "", "  ")] : []),
  ];
  return `${lines.join("\n")}\n`;
}

function graveFindings({ findings }: TrompetteDocument): TrompetteDocument["findings"] {
  return findings.filter(({ severity }) => severity !== "info");
}

function mildFindings({ findings }: TrompetteDocument): TrompetteDocument["findings"] {
  return findings.filter(({ severity }) => severity === "info");
}

/** A table set in from the edge; nothing where it has no row. */
function tableLines({ columns, rows }: TableData, width: number): string[] {
  if (rows.length === 0) return [];
  return textTable(columns, rows, width - 2).map((line) => `  ${line}`.trimEnd());
}
