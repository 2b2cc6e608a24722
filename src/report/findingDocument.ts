import type { Finding } from "../audio/Finding.js";
import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { findingMessage } from "./findingMessage.js";
import { rounded } from "./rounded.js";

type FindingDocument = MeasureDocument["takes"][number]["findings"][number];

/** A finding with its sentence. */
export function findingDocument(finding: Finding): FindingDocument {
  const values = Object.entries(finding.values).map(([key, value]) => [
    key,
    typeof value === "number" ? rounded(value, 5) : value,
  ]);
  return {
    code: finding.code,
    severity: finding.severity,
    values: Object.fromEntries(values),
    message: findingMessage(finding),
  };
}
