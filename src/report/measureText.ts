import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { sheetWidth } from "./sheetWidth.js";
import { summaryLines } from "./summaryLines.js";
import { shortTakeLines, takeLines } from "./takeLines.js";
import { wrapText } from "./wrapText.js";

/** How text for a terminal is set. */
export interface TextOptions {
  /** Terminal colours; they carry nothing that the words do not. */
  readonly colour: boolean;
  /** Columns; 80 where not given, never fewer than 60. */
  readonly width?: number | undefined;
}

const temperamentWords: Readonly<Record<string, string>> = {
  equal: "equal temperament",
  just: "just intonation",
  pythagorean: "Pythagorean tuning",
  "quarter-comma-meantone": "quarter-comma meantone",
};

/** What the column heads mean. */
export const measureTerms = (lowEdgeHz: number) =>
  "off: cents from the target, + is sharp. 95 % sure between: where the pitch lies, by how unsteady it was. wavers: standard " +
  "deviation of the pitch, cents. level: 0 dB is full scale. low: below " +
  `${lowEdgeHz.toFixed(0)} Hz against the rest (- without such a partial, or ` +
  "where two strings share partials). Partial by partial: --json.";

/**
 * The measuring sheet: what `measure` prints for people, from the same document that it prints as JSON.
 *
 * @returns text that ends with a line break; free of control characters from names
 */
export function measureText(document: MeasureDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const { settings } = document;
  const lines = [...headLines(document, width)];
  if (document.takes.length > 1) {
    lines.push(
      "",
      paint.heading("All takes together"),
      ...summaryLines(document.summary, settings.anchor, width),
    );
    for (const take of document.takes) lines.push("", ...shortTakeLines(take, paint, width));
    lines.push("", ...wrapText("Pairs, steps and low register of one take: measure it by itself.", width));
  } else {
    for (const take of document.takes) lines.push("", ...takeLines(take, document, paint, width));
  }
  if (document.takes.some(({ strings }) => strings.length > 0)) {
    lines.push("", ...wrapText(measureTerms(settings.lowEdgeHz), width, "", "  "));
  }
  return `${lines.join("\n")}\n`;
}

/** What the sheet is about: instrument, pitch, temperament, takes that were not used. */
export function headLines(document: MeasureDocument, width: number): string[] {
  const { instrument, settings, failed, takes } = document;
  const tonic = settings.tonic === null ? "" : `, tonic ${printable(settings.tonic)}`;
  const temperament = `${temperamentWords[settings.temperament ?? "equal"] ?? settings.temperament}${tonic}`;
  const raised = Object.entries(settings.capo).map(([name, semitones]) => `${printable(name)} +${semitones}`);
  const lines = [
    instrument === null
      ? `No instrument named: each passage is read against the nearest note, A4 = ${settings.a4Hz} Hz.`
      : `${settings.tuning === null ? "Instrument" : "Tuning"}: ${printable(instrument)}. A4 = ${settings.a4Hz} Hz, ` +
        `${temperament}.${raised.length === 0 ? "" : ` Raised (semitones): ${raised.join(", ")}.`}`,
  ];
  if (settings.anchor !== null) {
    lines.push(`Anchor: ${printable(settings.anchor)}; the other strings are to go by it.`);
  }
  if (failed.length > 0) {
    lines.push(
      `Takes measured: ${takes.length} of ${takes.length + failed.length}. Not used: ` +
        `${failed.map((one) => printable(one.file)).join(", ")}.`,
    );
  }
  return lines.flatMap((line) => wrapText(line, width, "", "  "));
}
