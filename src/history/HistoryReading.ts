import type { SlopeLack } from "../statistics/slopeWithin.js";
import type { PlacedTake } from "./takesInOrder.js";

/**
 * How a string's move compares with that of the others.
 *
 * - `stood`: less than a cent, or no move shown, and no different from the others
 * - `apart`: it stood, and the others moved
 * - `with-others`: it moved, and no differently from the others
 * - `alone`: it moved, and the others stood
 * - `both`: it moved, with the others and beyond (or less than) them
 * - `unclear`: it moved; what of it the others share can't be told (fewer than two of them, or too little shown)
 * - `unsure`: without an interval nothing can be said
 */
export type ChangeVerdict = "stood" | "apart" | "with-others" | "alone" | "both" | "unclear" | "unsure";

/** What became of a string from one take to the next that heard it. */
export interface PitchChange {
  /** Place of the earlier take in the list of takes. */
  readonly fromTake: number;
  readonly days: number;
  /** Of the pitch itself, whatever the targets were; sharp positive. */
  readonly cents: number;
  /** From those of the two readings; null where one of them has none. */
  readonly interval95Cents: readonly [number, number] | null;
  /** What the other strings did in between: the median of their changes; null for fewer than two. */
  readonly othersCents: number | null;
  readonly othersInterval95Cents: readonly [number, number] | null;
  readonly ownCents: number | null;
  readonly ownInterval95Cents: readonly [number, number] | null;
  readonly verdict: ChangeVerdict;
}

/** A string in one take that heard it. */
export interface StringMoment {
  /** Place in the list of takes. */
  readonly take: number;
  readonly targetHz: number;
  readonly frequencyHz: number;
  /** Cents from the target of this take. */
  readonly deviationCents: number;
  readonly interval95Cents: readonly [number, number] | null;
  readonly levelDb: number | null;
  /** Cents from the target of the last take that heard it: what is drawn and reckoned with. */
  readonly cents: number;
  readonly change: PitchChange | null;
  /** `first`: none before it. `other-note`: it was another note before (a capo, another tuning). */
  readonly changeLacking: "first" | "other-note" | null;
}

/** A straight line through values, stretches between work having each its own level. */
export interface Trend {
  /** Cents per day, degree or percent. */
  readonly slope: number;
  readonly interval95: readonly [number, number];
  readonly takeCount: number;
}

/** A trend, or the reason why there is none. */
export interface TrendReading {
  readonly trend: Trend | null;
  readonly takeCount: number;
  readonly lacking: SlopeLack | "too-few-strings" | null;
}

/** How pitch went with time and weather. */
export interface PitchTrends {
  readonly perDay: TrendReading;
  readonly perDegree: TrendReading;
  readonly perPercent: TrendReading;
}

/** One string over all takes. */
export interface StringHistory extends PitchTrends {
  readonly name: string;
  readonly role: PlacedTake["strings"][number]["role"];
  /** Of the last take that heard it. */
  readonly targetHz: number;
  readonly moments: readonly StringMoment[];
  /**
   * What became of it, as its last take has it, since the last take of an earlier day (since the take before, where all are of one day);
   * null where there is none of the same note.
   */
  readonly latest: { readonly take: number; readonly change: PitchChange } | null;
  /** Drift a day beyond what the other strings have in common. */
  readonly ownPerDay: TrendReading;
}

/**
 * A difference between what came after some work and what was before. `welch`: the takes of each side are the sample. `read`: one
 * side has one take, and the interval holds only how surely each take is read.
 */
export interface WorkDifference {
  readonly difference: number | null;
  readonly interval95: readonly [number, number] | null;
  readonly basis: "welch" | "read" | null;
  readonly beforeCount: number;
  readonly afterCount: number;
  /** `other-sounds`: takes differ in the strings that were heard or in the edge of the low register. */
  readonly lacking: "nothing-before" | "nothing-after" | "no-interval" | "other-sounds" | null;
}

/** What was different after some work on the instrument. */
export interface WorkEffect {
  readonly work: string;
  /** Place of the first take after it. */
  readonly take: number;
  /** From the mean date of the takes before to that of those after; null where there are none before. */
  readonly days: number | null;
  /** Of what all strings have in common. */
  readonly common: WorkDifference;
  /** `own`: beyond what the other strings have in common; its interval comes from several takes a side, or not at all. */
  readonly strings: readonly (WorkDifference & { readonly name: string; readonly own: WorkDifference })[];
  readonly lowRegisterDb: WorkDifference;
}

/** All takes of one instrument. */
export interface InstrumentHistory {
  /** Null for takes that named none. */
  readonly name: string | null;
  readonly takes: readonly PlacedTake[];
  readonly strings: readonly StringHistory[];
  /** What all strings have in common, take by take, the first being 0; null where fewer than three were heard. */
  readonly commonCents: readonly (number | null)[];
  readonly common: PitchTrends;
  readonly works: readonly WorkEffect[];
  /** Days on which the order of work and takes can't be told. */
  readonly doubtfulDays: readonly string[];
}
