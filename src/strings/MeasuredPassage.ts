import type { Finding } from "../audio/Finding.js";
import type { PitchSteadiness } from "./pitchSteadiness.js";
import type { StringMovement } from "./StringMovement.js";

/** Power of one partial, mean over the channels. */
export interface PartialPower {
  readonly number: number;
  /** 1 is a full-scale sine. */
  readonly power: number;
  /** Power ratio to the noise of one analysis frame, in the best channel; null where unknown. */
  readonly signalToNoise: number | null;
  /** True where a partial of another string falls on it and the two were not told apart: its power is then 0. */
  readonly shared?: boolean;
  /** The power of all partials that share it, told by the first of the strings; null or missing with the others. */
  readonly togetherPower?: number | null;
}

/** As {@link PitchSteadiness}; null throughout for a string whose movement could not be followed. */
export interface PassageSteadiness extends Omit<PitchSteadiness, "unsteadinessCents"> {
  readonly unsteadinessCents: number | null;
}

/** Everything a passage says of the one string in it, before it is known which string that is. */
export interface MeasuredPassage {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly frequencyHz: number;
  readonly steadiness: PassageSteadiness;
  readonly partials: readonly PartialPower[];
  /** Noise power between 44.7 Hz and the highest partial, mean over the channels; null where it could not be had. */
  readonly noisePower: number | null;
  readonly frameCentroidHz: number | null;
  readonly findings: readonly Finding[];
  /** How pitch and level moved; missing for a string that could not be followed. */
  readonly movement?: StringMovement;
}

/** A passage in which more than one string sounds: no reading can be had from it. */
export interface MixedPassage {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly togetherHz: readonly [number, number];
}
