/** A stretch of the recording in which one pitch holds. */
export interface SteadyPassage {
  /** The stretch to measure: attack and decay cut off. */
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** The whole stretch in which that pitch sounds. */
  readonly soundStartSeconds: number;
  readonly soundEndSeconds: number;
  /** Median of the frame-wise fundamental, good to a few cents, its octave not yet checked. */
  readonly frequencyHz: number;
}
