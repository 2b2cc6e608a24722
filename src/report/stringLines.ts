import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import type { Paint } from "./paintFor.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { stringAdvice } from "./stringAdvice.js";
import { type TextColumn, textTable } from "./textTable.js";
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

const statusWords = { "not-heard": "not heard", unresolved: "unclear" } as const;
const labels = { good: "fine", doubtful: "look", bad: "tune" } as const;

/** The table of strings, then a line of plain words and the findings for each. */
export function stringLines(take: TakeDocument, paint: Paint, width: number): string[] {
  const { strings } = take;
  const anchor = take.referencePitch?.anchor ?? null;
  if (strings.length === 0) return ["No string was heard."];
  const words = strings.flatMap((string) => {
    const { verdict, text } = stringAdvice(string, anchor);
    const label = `  ${labels[verdict]}  `;
    const lines = wrapText(`${printable(string.name)}: ${text}`, width, label);
    lines[0] = paint[verdict](label) + lines[0]!.slice(label.length);
    // How far off it is the advice says already, save what has to be known before all others are tuned by it.
    const notes = string.findings
      .filter(({ code }) => code !== "far-off" || string.name === anchor)
      .flatMap((finding) => wrapText(finding.message, width, "        - "));
    return [...lines, ...notes];
  });
  return [...textTable(columns, strings.map(row), width), "", ...words];
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
