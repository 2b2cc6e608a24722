import type { PitchIntegral } from "../partials/HarmonicFit.js";
import type { MeasuredPassage } from "./MeasuredPassage.js";

/** One of the strings of a passage in which several sound. */
export interface StringInMixture {
  /** Index into the targets. */
  readonly targetIndex: number;
  readonly reading: MeasuredPassage;
  /** Strength in the weakest third of the passage against the mean of all: about 1 where it sounds throughout. */
  readonly weakestThird: number;
  /** Null where its movement could not be followed. */
  readonly course: PitchIntegral | null;
  /**
   * Seconds that would do to tell it from another string whose partials all but coincide with its own; null where it
   * was told apart.
   */
  readonly neededSeconds: number | null;
  /** True where a strong foreign sound, or its own moving or sounding in part only, leaves it a guess: its findings say which. */
  readonly isGuess: boolean;
}

/** A string that was named as sounding, was not found, and may lie hidden under those that were. */
export interface HiddenString {
  readonly targetIndex: number;
  /** A passage of this length might show it. */
  readonly neededSeconds: number;
  /** The string that was found whose partials hide it (every `ratio`-th), and how near to them it must be not to show. */
  readonly under: { readonly targetIndex: number; readonly ratio: number; readonly withinCents: number };
}

/** A passage in which several strings sound, each of them read. */
export interface MixedStrings {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Of strings with the same target the first named is the lower one here: nothing in the sound tells which is which. */
  readonly strings: readonly StringInMixture[];
  readonly hidden: readonly HiddenString[];
}

/** Two strings of nearly one pitch, where the instrument has one of that note. */
export interface TwinSound {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly lowerHz: number;
  readonly upperHz: number;
}

/** A sound that no string of the instrument explains as it was read. */
export interface ForeignSound {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly frequencyHz: number;
}

/** A string whose pitch went from one height to another while others sounded: a peg was turned. */
export interface StringMove {
  readonly targetIndex: number;
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly movedCents: number;
}

/** What a stretch with several strings gave. */
export interface MixtureReading {
  readonly mixtures: readonly MixedStrings[];
  readonly twins: readonly TwinSound[];
  readonly foreign: readonly ForeignSound[];
  readonly moves: readonly StringMove[];
  /** Sound at partials of strings that were not found: one that moves, or sounds for part of the time, and was not read. */
  readonly changing: readonly ForeignSound[];
}
