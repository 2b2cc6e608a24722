import type { FindingSeverity } from "../audio/Finding.js";
import type { FindingWording } from "./FindingWording.js";
import { fillTemplate } from "./fillTemplate.js";
import { rounded } from "./rounded.js";

/** Any finding, of whatever kind. */
interface AnyFinding<Code extends string> {
  readonly code: Code;
  readonly severity: FindingSeverity;
  readonly values: Readonly<Record<string, number | string>>;
}

/** What stands in a document for it. */
interface FindingDocument {
  code: string;
  severity: FindingSeverity;
  values: Record<string, number | string | null>;
  message: string;
}

/** A finding with its sentence: the first wording that is meant for it and whose values it has. */
export function wordedFinding<Code extends string>(
  { code, severity, values }: AnyFinding<Code>,
  wordings: Readonly<Record<Code, readonly FindingWording[]>>,
): FindingDocument {
  const fitting = wordings[code]
    .filter((one) => one.severity === undefined || one.severity === severity)
    .filter(({ reason }) => reason === undefined || reason === values.reason)
    .map(({ text }) => fillTemplate(text, values))
    .find((message) => message !== null);
  const numbers = Object.entries(values).map(([key, value]) => [
    key,
    typeof value === "number" ? rounded(value, 5) : value,
  ]);
  // The last wording of a code needs nothing, so this is only for a code from a newer document.
  return { code, severity, values: Object.fromEntries(numbers), message: fitting ?? `Found: ${code}.` };
}
