import type { ComparisonFinding } from "../comparison/Comparison.js";
import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { comparisonWordings } from "./comparisonWordings.js";
import { fillTemplate } from "./fillTemplate.js";
import { rounded } from "./rounded.js";

/** A finding of a comparison with its sentence. */
export function comparisonFindingDocument(finding: ComparisonFinding): CompareDocument["findings"][number] {
  const { code, severity, values } = finding;
  return {
    code,
    severity,
    values: Object.fromEntries(
      Object.entries(values).map(([key, value]) => [
        key,
        typeof value === "number" ? rounded(value, 5) : value,
      ]),
    ),
    message: comparisonMessage(finding),
  };
}

function comparisonMessage({ code, values }: ComparisonFinding): string {
  for (const { reason, text } of comparisonWordings[code]) {
    if (reason !== undefined && reason !== values.reason) continue;
    const message = fillTemplate(text, values);
    if (message !== null) return message;
  }
  return `Found: ${code}.`;
}
