import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { beatRangePerSecond } from "./beatRangePerSecond.js";
import { displayWidth } from "./displayWidth.js";
import { intervalText, roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { stringErrors } from "./stringErrors.js";
import { type TableData, type TextColumn, textTable } from "./textTable.js";
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

/**
 * The table of pairs near a pure interval and how to read it. Empty where there is none. Of a pair with a string that is far
 * off nothing but that is said.
 */
export function pairLines(take: TakeDocument, width: number): string[] {
  if (take.pairs.length === 0) return [];
  const { rows, notes } = pairTableData(take, nameColumns);
  return [
    ...(rows.length === 0 ? [] : textTable(columns, rows, width)),
    ...notes
      .flatMap((line) => wrapText(line.trimEnd(), width, "  "))
      .map((line) => line.replaceAll("\u00a0", " ")),
  ];
}

/**
 * What stands in the table, and how to read it.
 *
 * @param widest - names wider than this many columns take two rows
 */
export function pairTableData(
  take: TakeDocument,
  widest = Number.POSITIVE_INFINITY,
): TableData & { readonly notes: readonly string[] } {
  const frequencies = new Map(take.strings.map((string) => [string.name, string.frequencyHz]));
  const far = stringErrors(take)
    .filter(({ isFar }) => isFar)
    .map(({ string }) => string.name);
  const rows: string[][] = [];
  const waiting: string[] = [];
  for (const pair of take.pairs) {
    const [lower, upper] = names(pair, take.pairs);
    const both = `${lower} - ${upper}`;
    if (far.includes(pair.lower) || far.includes(pair.upper)) {
      waiting.push(`${both} (${pair.ratio})`.replaceAll(" ", "\u00a0"));
      continue;
    }
    const numbers = row(pair, frequencies.get(pair.lower) ?? null);
    rows.push(
      ...(displayWidth(both) > widest ? [[lower, ...numbers], [`  ${upper}`]] : [[both, ...numbers]]),
    );
  }
  const first = `${far.map(printable).join(" and ")} first`;
  const notes = [
    ...(waiting.length === 0 ? [] : [`Tune ${first}; until then these say nothing: ${waiting.join(", ")}.`]),
    ...(rows.length === 0
      ? []
      : [`Beats are heard where the two sound together. + is wide, - is narrow. ${basis(take)}`]),
  ];
  return { columns, rows, notes };
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
    beats
      ? roundedOutward(beats, 2)
          .map((end) => end.toFixed(2))
          .join(" to ")
      : "not known",
  ];
}
