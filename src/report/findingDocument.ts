import type { Finding, FindingCode } from "../audio/Finding.js";
import type { FindingWording } from "./FindingWording.js";
import { recordingWordings } from "./recordingWordings.js";
import { stringWordings } from "./stringWordings.js";
import { wordedFinding } from "./wordedFinding.js";

const wordings: Readonly<Record<FindingCode, readonly FindingWording[]>> = {
  ...recordingWordings,
  ...stringWordings,
};

/** A finding of a take or a string with its sentence. */
export function findingDocument(finding: Finding): ReturnType<typeof wordedFinding> {
  return wordedFinding(finding, wordings);
}
