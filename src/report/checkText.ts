import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { takeHeadingLines } from "./takeLines.js";

/** Whether each recording is good enough to measure from: what `check` prints. Ends with a line break. */
export function checkText(document: MeasureDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const lines = document.takes.flatMap((take, index) => {
    const grave = take.findings.some((finding) => finding.severity === "problem");
    const doubtful = take.findings.some((finding) => finding.severity === "warning");
    const verdict = grave
      ? paint.bad("Not good enough to measure from; see the problems.")
      : doubtful
        ? paint.doubtful("Good enough to measure from, with the warnings in mind.")
        : paint.good("Good enough to measure from.");
    return [
      ...(index === 0 ? [] : [""]),
      ...takeHeadingLines(take, paint, width),
      verdict,
      ...findingLines(take.findings, paint, width),
    ];
  });
  return `${lines.join("\n")}\n`;
}
