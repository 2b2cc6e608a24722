import type { ComparisonFinding } from "../comparison/Comparison.js";
import { comparisonWordings } from "./comparisonWordings.js";
import { wordedFinding } from "./wordedFinding.js";

/** A finding of a comparison with its sentence. */
export function comparisonFindingDocument(finding: ComparisonFinding): ReturnType<typeof wordedFinding> {
  return wordedFinding(finding, comparisonWordings);
}
