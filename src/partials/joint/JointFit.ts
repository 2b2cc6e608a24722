import type { PitchIntegral } from "../HarmonicFit.js";

/** A partial of one of several strings. */
export interface JointPartial {
  readonly number: number;
  /** Mean power, 1 for a full-scale sine; null where another string's partial lies too close for a split. */
  readonly power: number | null;
  /**
   * Where there is no split, the mean power of all that lies there together, told by the first of the strings that share
   * it; null with the others and where there is a split.
   */
  readonly togetherPower: number | null;
  /** Power over what nothing explains in one frame; null where there is no split. */
  readonly signalToNoise: number | null;
}

/** One of the strings that sound together. */
export interface JointFit {
  /** Mean frequency over the passage. */
  readonly frequencyHz: number;
  readonly course: PitchIntegral;
  /** How its strength moves at each moment of the course, the same for all its partials, about 1 on the mean. */
  readonly gain: Float64Array;
  readonly partials: readonly JointPartial[];
  /** True where it could be followed on partials of its own, so that no other string disturbs it. */
  readonly hasOwnPartials: boolean;
  /** False where its movement could not be followed: the frequency is then that of a steady line, its course flat. */
  readonly followed: boolean;
  /** Of what the others leave at its strongest partials, the share that it explains; near 1 where nothing else sounds. */
  readonly explainedShare: number;
  /** Strength in the weakest third of the passage against the mean of all: about 1 where it sounds throughout. */
  readonly weakestThird: number;
  /** Strength where it is weakest against where it is strongest, each over 0.6 s: near 1 where it sounds throughout. */
  readonly evenness: number;
}
