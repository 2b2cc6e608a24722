import type { PitchIntegral } from "../partials/HarmonicFit.js";
import type { MeasuredPassage } from "./MeasuredPassage.js";

/** One of the strings of a passage in which several sound. */
export interface StringInMixture {
  /** Index into the targets. */
  readonly targetIndex: number;
  readonly reading: MeasuredPassage;
  /** Null where its movement could not be followed. */
  readonly course: PitchIntegral | null;
  /**
   * Seconds that would do to tell it from another string whose partials all but coincide with its own; null where it
   * was told apart.
   */
  readonly neededSeconds: number | null;
}

/** A passage in which several strings sound, each of them read. */
export interface MixedStrings {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly strings: readonly StringInMixture[];
  /** Strings that were named as sounding, were not found, and may lie hidden under those that were. */
  readonly hidden: readonly Pick<StringInMixture, "targetIndex" | "neededSeconds">[];
}
