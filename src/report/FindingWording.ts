import type { FindingSeverity } from "../audio/Finding.js";

/** One way to word a finding: a template (see `fillTemplate`), and what the finding must be for it. */
export interface FindingWording {
  readonly severity?: FindingSeverity;
  /** Value of `reason` that this wording is for. */
  readonly reason?: string;
  readonly text: string;
}
