import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import type { Paint } from "./paintFor.js";
import { wrapText } from "./wrapText.js";

type FindingDocument = MeasureDocument["takes"][number]["findings"][number];

const labels = { problem: "problem", warning: "warning", info: "note" } as const;
const order = ["problem", "warning", "info"] as const;

/** The findings of a recording, gravest first, each with its severity in words. */
export function findingLines(findings: readonly FindingDocument[], paint: Paint, width: number): string[] {
  // Nothing to line up with where all are of one kind.
  const labelWidth = findings.some(({ severity }) => severity !== "info") ? 7 : 4;
  return order.flatMap((severity) =>
    findings
      .filter((finding) => finding.severity === severity)
      .flatMap((finding) => {
        const label = `  ${labels[severity].padEnd(labelWidth)}  `;
        const lines = wrapText(finding.message, width, label);
        const brush =
          severity === "problem" ? paint.bad : severity === "warning" ? paint.doubtful : paint.heading;
        lines[0] = brush(label.trimEnd()) + lines[0]!.slice(label.trimEnd().length);
        return lines;
      }),
  );
}
