import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { beatRangePerSecond } from "./beatRangePerSecond.js";
import { displayWidth } from "./displayWidth.js";
import { intervalText } from "./intervalText.js";
import { pairSentences } from "./pairSentences.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type TextColumn, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];
type PairDocument = TakeDocument["pairs"][number];

const columns: readonly TextColumn[] = [
  { heading: ["pair"], align: "left" },
  { heading: ["ratio"], align: "right" },
  { heading: ["from pure", "cents"], align: "right" },
  { heading: ["95 % sure", "between"], align: "right" },
  { heading: ["beats", "a second"], align: "right" },
  { heading: ["95 % sure", "between"], align: "right" },
];
/** Columns of 80 that the five columns of numbers leave for the names. */
const nameColumns = 24;

/** The table of pairs near a pure interval, how to read it, and what to do. Empty where there is none. */
export function pairLines(
  take: TakeDocument,
  context: Pick<MeasureDocument, "instrument" | "settings">,
  width: number,
): string[] {
  if (take.pairs.length === 0) return [];
  const frequencies = new Map(take.strings.map((string) => [string.name, string.frequencyHz]));
  const stacked = take.pairs.some((pair) => displayWidth(names(pair, take.pairs).join(" - ")) > nameColumns);
  const rows = take.pairs.flatMap((pair) => {
    const [lower, upper] = names(pair, take.pairs);
    const numbers = row(pair, frequencies.get(pair.lower) ?? null);
    return stacked ? [[lower, ...numbers], [`  ${upper}`]] : [[`${lower} - ${upper}`, ...numbers]];
  });
  const sentences = pairSentences(take, context)
    .flatMap((sentence) => wrapText(sentence, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
  return [
    ...textTable(columns, rows, width),
    "",
    ...wrapText(
      `Beats are what you hear when two strings sound together. + is wide, - is narrow. ${basis(take)}`.trimEnd(),
      width,
      "  ",
    ),
    ...(sentences.length === 0 ? [] : ["", ...sentences]),
  ];
}

/** What the pairs were worked out from, in words. */
function basis({ pairs }: TakeDocument): string {
  if (pairs.every((pair) => pair.basis === "measured")) return "";
  const alone = "worked out from each string heard alone.";
  if (pairs.every((pair) => pair.basis !== "measured")) return `All are ${alone}`;
  return `Pairs marked * did not sound together here: ${alone}`;
}

function names(pair: PairDocument, pairs: readonly PairDocument[]): [string, string] {
  const mixed = pairs.some(({ basis }) => basis !== pairs[0].basis);
  const mark = mixed && pair.basis !== "measured" ? " *" : "";
  return [printable(pair.lower), `${printable(pair.upper)}${mark}`];
}

function row(pair: PairDocument, lowerHz: number | null): string[] {
  const interval = pair.interval95Cents;
  const beats = interval && lowerHz !== null ? beatRangePerSecond(pair.ratio, lowerHz, interval) : null;
  return [
    pair.ratio,
    signed(pair.centsFromPure, 1),
    interval ? intervalText(interval, 1) : "not known",
    pair.beatsPerSecond.toFixed(2),
    beats ? `${beats[0].toFixed(2)} to ${beats[1].toFixed(2)}` : "not known",
  ];
}
