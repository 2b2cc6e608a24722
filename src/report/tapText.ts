import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { tapBowLines } from "./tapBowLines.js";
import { tapComparisonLines } from "./tapComparisonLines.js";
import { tapModeLines } from "./tapModeLines.js";
import { wrapText } from "./wrapText.js";

/** What the column heads mean. */
export const tapTerms =
  "95 % sure (+-): by noise, the taps and the room as far as it shows; T60: time in which the mode falls by 60 dB (Q = f / bandwidth, " +
  "T60 = 6.91 Q / (pi f)). Level: amplitude as the tap begins, against the strongest mode, as these taps drive it. In: taps that " +
  "show it by themselves. *: a neighbour overlaps it, less sure.";

/** How to find out which mode is what. */
export const tapHowToTell = [
  "Which mode is which can't be heard from taps alone. The air's mode moves when the air is changed: cover the sound hole partly, or open a lid, " +
    "and tap again; the mode that moves most is the air's (common practice, no source). A mode of the room stays when the " +
    "instrument is carried to another place and moves with the room: tap in two rooms.",
  "Microphone, place and spot of the tap are in every level; frequency and Q depend on them little, on damping by hands, stand and cloth much.",
];

/** What taps say of a body, for people: the answer first, then the modes, the other body, the bowed curve, and what to be careful about. */
export function tapText(document: TapDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const sentences = (texts: readonly string[]) => texts.flatMap((text) => wrapText(text, width, "  ", "  "));
  const { takes, comparison, bowed } = document;
  const hasModes = takes.some(({ modes }) => modes.length > 0);
  const titled = (title: string, name: string) =>
    paint.heading(takes.length > 1 ? `${title}, ${printable(name)}` : title);
  const lines = [
    ...takes.flatMap(({ file, durationSeconds, taps, tapsUsed }) =>
      wrapText(
        `${paint.heading(printable(file))}, ${durationSeconds.toFixed(1)} s, ${tapsUsed} of ${taps.length} taps used`,
        width,
      ),
    ),
    ...section(paint.heading("In short"), sentences(document.inShort)),
    ...takes.flatMap((take) => section(titled("Modes", take.name), tapModeLines(take, width))),
    ...(comparison === null
      ? []
      : section(
          paint.heading(`${printable(comparison.a)} less ${printable(comparison.b)}`),
          tapComparisonLines(comparison, width),
        )),
    ...(bowed === null || bowed.bands.length === 0
      ? []
      : section(paint.heading("Tapped and bowed over each other"), tapBowLines(bowed, width))),
    ...takes.flatMap((take) =>
      section(titled("Cautions", take.name), findingLines(take.findings, paint, width)),
    ),
    ...(bowed === null
      ? []
      : section(paint.heading("Cautions, bowed take"), findingLines(bowed.findings, paint, width))),
    ...(hasModes ? section(paint.heading("What is what"), sentences(tapHowToTell)) : []),
    ...(hasModes ? ["", ...wrapText(tapTerms, width, "", "  ")] : []),
  ];
  return `${lines.join("\n")}\n`;
}
