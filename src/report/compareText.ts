import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { bodyCurveDifferenceLines } from "./bodyCurveDifferenceLines.js";
import { comparedMeasureLines } from "./comparedMeasureLines.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { type Paint, paintFor } from "./paintFor.js";
import { partialDifferenceLines } from "./partialDifferenceLines.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { sideLines } from "./sideLines.js";
import { wrapText } from "./wrapText.js";

/** What a comparison says, for people: the verdict first, then every take, the other measures, and what is unfair about it. */
export function compareText(document: CompareDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const pairs = document.sides.slice(1).map(({ name }) => name);
  const lines = [
    ...compareHeadLines(document, paint, width),
    ...section(
      paint.heading("In short"),
      compareAnswer(document).flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...section(paint.heading("Low part, take by take"), sideLines(document, width)),
    ...pairs.flatMap((name) => [
      ...section(
        paint.heading(`Other measures, ${first(document)} less ${printable(name)}`),
        comparedMeasureLines(document, name, width),
      ),
      ...section(
        paint.heading(`Partials that differ most, ${first(document)} less ${printable(name)}`),
        partialDifferenceLines(document, name, width),
      ),
      ...section(
        paint.heading(`Body curve, ${first(document)} less ${printable(name)}`),
        bodyCurveDifferenceLines(document, name, width),
      ),
    ]),
    ...section(paint.heading("Fairness"), fairnessLines(document, paint, width)),
  ];
  return `${lines.join("\n")}\n`;
}

/** The answer, in sentences. */
export function compareAnswer({ verdict }: CompareDocument): readonly string[] {
  return verdict.length === 0 ? ["Nothing can be said; see Fairness."] : verdict;
}

function first({ sides }: CompareDocument): string {
  return printable(sides[0]?.name ?? "");
}

/** Sides, instrument, pitch, and what was left out. */
export function compareHeadLines(
  { sides, instrument, sounds, settings, failed }: CompareDocument,
  paint: Paint,
  width: number,
): string[] {
  const counted = sides.map(
    ({ name, takeCount }) => `${printable(name)} (${takeCount} ${takeCount === 1 ? "take" : "takes"})`,
  );
  const played = sounds.map((names) => names.map(printable).join("+")).join(", ");
  return [
    ...wrapText(`${paint.heading("Compared:")} ${counted.join(", ")}.`, width, "", "  "),
    ...wrapText(
      `${instrument === null ? "No instrument was named" : `Instrument: ${printable(instrument)}`}. A4 = ${settings.a4Hz} Hz.` +
        (played === "" ? "" : ` Counted, since every take has it: ${played}.`),
      width,
      "",
      "  ",
    ),
    ...(settings.microphone === null
      ? []
      : wrapText(
          `The microphone's response was taken off: ${printable(settings.microphone)}.`,
          width,
          "",
          "  ",
        )),
    ...failed.flatMap(({ message }) => wrapText(message, width, "  left out: ", "    ")),
  ];
}

function fairnessLines(document: CompareDocument, paint: Paint, width: number): string[] {
  return [
    ...findingLines(document.findings, paint, width),
    ...wrapText(fairnessSentence(document), width, "  "),
  ];
}

/** What holds for every comparison of its kind. */
export function fairnessSentence({ settings }: CompareDocument): string {
  const always = settings.equalGain
    ? "You declared the recordings equal in gain; if they were not, levels mean nothing."
    : "How loud each side was recorded plays no part; only how its sound is shared out.";
  return `${always} Room, microphone, player and strings are in all these numbers: what is shown is shown for them.`;
}
