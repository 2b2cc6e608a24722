import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import type { Paint } from "./paintFor.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { stringAdvice } from "./stringAdvice.js";
import { stringErrors } from "./stringErrors.js";
import { type TableData, type TextColumn, textTable } from "./textTable.js";
import { tuningPlan } from "./tuningPlan.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];
type StringDocument = TakeDocument["strings"][number];

const columns: readonly TextColumn[] = [
  { heading: ["string"], align: "left" },
  { heading: ["target", "Hz"], align: "right" },
  { heading: ["heard", "Hz"], align: "right" },
  { heading: ["off", "cents"], align: "right" },
  { heading: ["95 % sure", "between"], align: "right" },
  { heading: ["wavers", "cents"], align: "right" },
  { heading: ["level", "dB"], align: "right" },
  { heading: ["low", "dB"], align: "right" },
];

/** Stands after the interval where there is an anchor. */
const anchorColumn: TextColumn = { heading: ["from", "anchor"], align: "right" };
const ANCHOR_PLACE = 5;

const statusWords = { "not-heard": "not heard", unresolved: "unclear" } as const;
const labels = { good: "fine", doubtful: "look", bad: "tune" } as const;

/** The table of strings, then plain words for those that are not just to be left, and the findings for each. */
export function stringLines(take: TakeDocument, paint: Paint, width: number): string[] {
  const { strings } = take;
  if (strings.length === 0) return ["No string was heard."];
  const anchor = take.referencePitch?.anchor ?? null;
  const words = wordLines(take, paint, width);
  return [...stringTable(take, anchor, width), ...(words.length === 0 ? [] : ["", ...words])];
}

/** The table alone. */
export function stringTable(take: TakeDocument, anchor: string | null, width: number): string[] {
  const { columns, rows } = stringTableData(take, anchor);
  return textTable(columns, rows, width);
}

/** What stands in it. */
export function stringTableData({ strings }: TakeDocument, anchor: string | null): TableData {
  const withAnchor = <Cell>(cells: readonly Cell[], own: Cell) =>
    anchor === null ? cells : [...cells.slice(0, ANCHOR_PLACE), own, ...cells.slice(ANCHOR_PLACE)];
  const rows = strings.map((string) => {
    const own = string.ownErrorCents === null ? "-" : signed(string.ownErrorCents, 1);
    return withAnchor(row(string), string.name === anchor ? "anchor" : own);
  });
  return { columns: withAnchor(columns, anchorColumn), rows };
}

/** Plain words for the strings that are not just to be left, and the findings for each. */
export function wordLines(take: TakeDocument, paint: Paint, width: number): string[] {
  const { strings } = take;
  const anchor = take.referencePitch?.anchor ?? null;
  const silent = strings.filter(({ status, findings }) => status === "not-heard" && findings.length === 0);
  const errors = stringErrors(take);
  const { steps } = tuningPlan(take);
  const words = strings.flatMap((string) => {
    if (silent.length > 1 && silent.includes(string)) return [];
    const error = errors.find((one) => one.string === string) ?? null;
    const step = steps.find(({ name }) => name === string.name) ?? null;
    const { verdict, text } = stringAdvice(string, { anchor, error, step });
    // How far off it is the advice says already, save what has to be known before all others are tuned by it.
    const notes = string.findings.filter(({ code }) => code !== "far-off" || string.name === anchor);
    // What is simply to be left stands in the table and in the short answer; what is to be moved, among the steps.
    const isSaid = verdict === "good" || (step !== null && take.pairs.length > 0);
    if (isSaid && notes.length === 0) return [];
    const label = `  ${labels[verdict]}  `;
    const lines = wrapText(`${printable(string.name)}: ${text}`, width, label);
    lines[0] = paint[verdict](label) + lines[0]!.slice(label.length);
    return [...lines, ...notes.flatMap((finding) => wrapText(finding.message, width, "        - "))];
  });
  return [...words, ...(silent.length > 1 ? silentLines(take, silent, paint, width) : [])];
}

/** Several strings that were not heard, most of them because nobody played them, in one. */
function silentLines(
  take: TakeDocument,
  silent: readonly StringDocument[],
  paint: Paint,
  width: number,
): string[] {
  const label = `  ${labels.doubtful}  `;
  // One that is pure to a string below it, an octave or a twelfth down, has no partial that shows.
  const mayHide = take.passages.some((passage) => passage.strings.length > 0) && take.pairs.length > 0;
  const lines = wrapText(
    `${silent.map(({ name }) => printable(name)).join(", ")}: not heard in this take. If one of them should have ` +
      "sounded: put it on the wheel, check its cotton, record again." +
      (mayHide
        ? " One that is exactly pure to a lower string sounding with it can't be heard apart: record it alone."
        : ""),
    width,
    label,
  );
  lines[0] = paint.doubtful(label) + lines[0]!.slice(label.length);
  return lines;
}

function row(string: StringDocument): string[] {
  const number = (value: number | null, digits: number) => (value === null ? "-" : value.toFixed(digits));
  const sign = (value: number | null) => (value === null ? "-" : signed(value, 1));
  const interval = string.interval95Cents;
  return [
    printable(string.name),
    number(string.targetHz, 3),
    string.status === "measured" ? number(string.frequencyHz, 3) : statusWords[string.status],
    sign(string.deviationCents),
    interval ? intervalText(interval, 1) : string.deviationCents === null ? "-" : "not known",
    number(string.unsteadinessCents, 1),
    number(string.levelDb, 1),
    sign(string.lowRegisterDb),
  ];
}
