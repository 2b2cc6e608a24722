import type { TakeReading } from "../reading/TakeReading.js";

/** One side of a comparison: an instrument (or a set-up of one) and its takes, each newly placed. */
export interface ComparedSide {
  readonly name: string;
  readonly takes: readonly TakeReading[];
}

/** What the numbers of one measure carry. */
export type Verdict = "a-higher" | "b-higher" | "not-shown";

/** Names of the measures that are compared; the number in `partial1Db` is that of the partial, in `octave63Db` the band. */
export type MeasureName =
  | "lowRegisterDb"
  | "lowLevelDb"
  | "centroidHz"
  | "lowReachHz"
  | `octave${number}Db`
  | `partial${number}Db`;

/** One measure on two sides, the take being the sample. */
export interface MeasureComparison {
  readonly measure: MeasureName;
  /** Null for the take as a whole. */
  readonly string: string | null;
  readonly unit: "dB" | "Hz";
  /** True for the one measure that is tested at 5 % by itself. */
  readonly primary: boolean;
  readonly sideA: string;
  readonly sideB: string;
  /** Means over takes. */
  readonly a: number;
  readonly b: number;
  /** Standard deviations between takes; null for one take. */
  readonly sdA: number | null;
  readonly sdB: number | null;
  readonly takesA: readonly number[];
  readonly takesB: readonly number[];
  /** a minus b. */
  readonly difference: number;
  /** Of this measure by itself (Welch's t); null with one take on a side or no scatter at all. */
  readonly interval95: readonly [number, number] | null;
  /**
   * The primary measure's own p (Holm-adjusted over pairs of sides where there are more than two), all others' Holm-adjusted
   * together. The primary is shown below 0.05, the others below 0.02, so that anything is shown where nothing differs in 7 of 100 at most.
   */
  readonly pAdjusted: number | null;
  /** Smallest true difference that the test at the level used shows with 80 % probability. */
  readonly smallestDetectable: number | null;
  /** Takes a side that would show 1 dB with 80 % probability; null for measures in hertz, and where nothing scatters. */
  readonly takesForOneDb: number | null;
  readonly verdict: Verdict;
}

/** One partial, unsmoothed, the string's common strength taken out. */
export interface PartialDifferenceReading {
  readonly sideA: string;
  readonly sideB: string;
  readonly string: string;
  readonly number: number;
  readonly frequencyHz: number;
  readonly differenceDb: number;
  readonly interval95Db: readonly [number, number] | null;
}

/** A point of the difference of two body curves; the intervals of all points hold together. */
export interface CurveDifference {
  readonly sideA: string;
  readonly sideB: string;
  readonly frequencyHz: number;
  readonly differenceDb: number;
  readonly interval95Db: readonly [number, number] | null;
}

/** A side in the order of its low part. */
export interface RankedSide {
  readonly name: string;
  readonly takeCount: number;
  readonly lowRegisterDb: number;
  /** Of the side's own mean, from the spread between its takes. */
  readonly interval95Db: readonly [number, number] | null;
}

/** The plain-word codes of everything that weakens a comparison. */
export type ComparisonFindingCode =
  | "note-missing"
  | "no-common-note"
  | "no-low-part"
  | "one-take"
  | "take-apart"
  | "no-scatter"
  | "sample-rates-differ"
  | "low-cut-differs"
  | "codecs-differ"
  | "band-limit-differs"
  | "noise-differs"
  | "gain-control-used"
  | "clipping-present"
  | "tunings-differ"
  | "no-body-curve"
  | "reach-below-lowest"
  | "microphone-short";

/** Something that weakens a comparison, as data. */
export interface ComparisonFinding {
  readonly code: ComparisonFindingCode;
  readonly severity: "info" | "warning" | "problem";
  readonly values: Readonly<Record<string, number | string>>;
}

/** What two or more sides say against each other: each against the first. */
export interface Comparison {
  readonly sides: readonly { readonly name: string; readonly takeCount: number }[];
  /** Strings, and sets of strings that sounded together, that every take has: only these count. */
  readonly sounds: readonly (readonly string[])[];
  readonly measures: readonly MeasureComparison[];
  readonly partialDifferences: readonly PartialDifferenceReading[];
  readonly bodyCurveDifference: readonly CurveDifference[];
  /** The sides by their low part, the largest first; empty where it can't be had. */
  readonly ranking: readonly RankedSide[];
  readonly findings: readonly ComparisonFinding[];
}

/** How sides are compared. */
export interface ComparisonOptions {
  /** The recordings were made with one gain, so that levels compare as well. */
  readonly equalGain: boolean;
  /** Where the low register ends. */
  readonly lowEdgeHz: number;
}
