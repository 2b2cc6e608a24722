import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { textTable } from "./textTable.js";
import { toldPassages } from "./toldPassages.js";
import { wheelAdvice, wheelRateSentences } from "./wheelAdvice.js";
import { wheelAnswer } from "./wheelAnswer.js";
import { wheelLeftOver } from "./wheelLeftOver.js";
import { wheelPassageTable } from "./wheelPassageTable.js";
import { wheelPhaseLines } from "./wheelPhaseLines.js";
import { wheelStringLines } from "./wheelStringLines.js";
import { wheelCaution, wheelTerms } from "./wheelTerms.js";
import { wheelTurnLines } from "./wheelTurnLines.js";
import { wrapText } from "./wrapText.js";

type PassageDocument = WheelDocument["passages"][number];

/** What a take says about the wheel, for people: the answer first, then strings, the turn, what is left, what to try. */
export function wheelText(document: WheelDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const { passages } = document;
  const grave = document.findings.filter(({ severity }) => severity !== "info");
  const table = wheelPassageTable(passages);
  const sentences = (texts: readonly string[]) =>
    [...new Set(texts)].flatMap((text) => wrapText(text, width, "  ", "  "));
  const { isLong, turning, advised } = toldPassages(document);
  const titled = (title: string, passage: PassageDocument) =>
    paint.heading(
      passages.length === 1
        ? title
        : `${title}, ${passage.startSeconds.toFixed(1)} to ${passage.endSeconds.toFixed(1)} s`,
    );
  const lines = [
    ...wrapText(
      `${paint.heading(printable(document.file))}, ${document.durationSeconds.toFixed(1)} s`,
      width,
    ),
    ...section(paint.heading("In short"), sentences(wheelAnswer(document))),
    ...section(paint.heading("Passages"), isLong ? textTable(table.columns, table.rows, width) : []),
    ...section(paint.heading("The recording"), findingLines(grave, paint, width)),
    ...turning.flatMap((passage) => [
      ...section(titled("Swing by string, to either side", passage), wheelStringLines(passage, width)),
      ...section(titled("One turn of the wheel", passage), wheelTurnLines(passage, width)),
      ...section(titled("The strings against each other", passage), wheelPhaseLines(passage, width)),
      ...section(titled("What does not come round", passage), sentences(wheelLeftOver(passage))),
      ...section(titled("The rate", passage), sentences(wheelRateSentences(passage))),
    ]),
    ...section(paint.heading("What to try"), sentences(advised.flatMap(wheelAdvice))),
    ...section(paint.heading("Caution"), sentences([wheelCaution])),
    ...(turning.length > 0 ? ["", ...wrapText(wheelTerms, width, "", "  ")] : []),
  ];
  return `${lines.join("\n")}\n`;
}
