import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { type CheckVerdict, checkVerdict } from "./checkVerdict.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { type Paint, paintFor } from "./paintFor.js";
import { sheetWidth } from "./sheetWidth.js";
import { takeHeadingLines } from "./takeLines.js";
import { wrapText } from "./wrapText.js";

const verdictWords: Readonly<Record<CheckVerdict, string>> = {
  good: "Good enough to measure from.",
  doubtful: "Good enough to measure from, with the warnings in mind.",
  together:
    "Several strings seem to sound together. They are read once a tuning or an instrument is named: " +
    "gurdybench measure TAKE.wav --tuning NAME.",
  bad: "Not good enough to measure from; see the problems.",
};

function verdictPaint(verdict: CheckVerdict, paint: Paint): (text: string) => string {
  if (verdict === "bad") return paint.bad;
  return verdict === "good" ? paint.good : paint.doubtful;
}

/** What is said of one recording. */
export function checkedTake(take: MeasureDocument["takes"][number]): {
  readonly verdict: CheckVerdict;
  readonly sentence: string;
  readonly findings: MeasureDocument["takes"][number]["findings"];
} {
  const verdict = checkVerdict(take);
  // What was not read for that reason is no fault of the recording.
  const findings =
    verdict === "together" ? take.findings.filter(({ code }) => code !== "no-passage") : take.findings;
  return { verdict, sentence: verdictWords[verdict], findings };
}

/** Whether each recording is good enough to measure from: what `check` prints. Ends with a line break. */
export function checkText(document: MeasureDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const lines = document.takes.flatMap((take, index) => {
    const { verdict, sentence, findings } = checkedTake(take);
    return [
      ...(index === 0 ? [] : [""]),
      ...takeHeadingLines(take, paint, width),
      ...wrapText(sentence, width).map(verdictPaint(verdict, paint)),
      ...findingLines(findings, paint, width),
    ];
  });
  return `${lines.join("\n")}\n`;
}
