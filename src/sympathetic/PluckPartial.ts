import type { GlideEvidence, PartialFit } from "./fitPartial.js";
import type { PartialFrames } from "./partialFrames.js";

/** One partial of a pluck, fitted. */
export interface PluckPartial {
  readonly number: number;
  readonly fit: PartialFit;
  /** Without the glide. */
  readonly frames: PartialFrames;
  /** Null where it tells nothing of the glide. */
  readonly evidence: GlideEvidence | null;
}
