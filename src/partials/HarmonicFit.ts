/** One partial as the fit found it. */
interface FittedPartial {
  readonly number: number;
  /** Mean power over the passage with the noise taken off; 1 is a full-scale sine. 0 where nothing is left. */
  readonly power: number;
  /** Power over that of the noise in the bandwidth of one frame; null where the noise could not be measured. */
  readonly signalToNoise: number | null;
  /** Noise beside it in power per hertz; null where nothing lies between the partials. */
  readonly noiseDensity: number | null;
}

/** One harmonic series fitted to a passage. */
export interface HarmonicFit {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean frequency over exactly this stretch. */
  readonly frequencyHz: number;
  /** True where the pitch moves no more than the noise lets one see. */
  readonly steady: boolean;
  /** Standard error that noise alone leaves, in cents (the Cramer-Rao bound of the partials used). */
  readonly noiseErrorCents: number;
  /** Course of the pitch: cents from `frequencyHz` gone through so far, in cent-seconds, at each frame. */
  readonly course: PitchIntegral;
  /** How the strength of all partials together moves, at each frame of the course, about 1 on the mean. */
  readonly gain: Float64Array;
  readonly partials: readonly FittedPartial[];
  /** Numbers of clear partials that move on a course of their own: those of another string, perhaps. */
  readonly strayedPartials: readonly number[];
  /** How many partials were followed together. */
  readonly followedCount: number;
}

/** The integral of the deviation from the mean: its differences are exact means over any stretch. */
export interface PitchIntegral {
  readonly hopSeconds: number;
  /** Cents times seconds, from 0 at the passage's start to about 0 at its end. */
  readonly centSeconds: Float64Array;
}
