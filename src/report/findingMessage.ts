import type { Finding, FindingCode } from "../audio/Finding.js";
import type { FindingWording } from "./FindingWording.js";
import { fillTemplate } from "./fillTemplate.js";
import { recordingWordings } from "./recordingWordings.js";
import { stringWordings } from "./stringWordings.js";

const wordings: Readonly<Record<FindingCode, readonly FindingWording[]>> = {
  ...recordingWordings,
  ...stringWordings,
};

/** One or two plain sentences for a finding: what was found, with its number, and what to do next. */
export function findingMessage(finding: Finding): string {
  for (const { severity, reason, text } of wordings[finding.code]) {
    if (severity !== undefined && severity !== finding.severity) continue;
    if (reason !== undefined && reason !== finding.values.reason) continue;
    const message = fillTemplate(text, finding.values);
    if (message !== null) return message;
  }
  // The last wording of a code needs nothing, so this is only for a code from a newer document.
  return `Found: ${finding.code}.`;
}
