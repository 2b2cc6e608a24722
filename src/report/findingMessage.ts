import type { Finding } from "../audio/Finding.js";
import { findingDocument } from "./findingDocument.js";

/** One or two plain sentences for a finding: what was found, with its number, and what to do next. */
export function findingMessage(finding: Finding): string {
  return findingDocument(finding).message;
}
