/** One fitted partial of a string. */
export interface PartialLevel {
  /** 1 is the fundamental. */
  readonly number: number;
  /** Mean frequency in hertz, `number` times the string's frequency. */
  readonly frequencyHz: number;
  /** Power relative to the sum of the string's fitted partials, in dB (at most 0); null where it is shared or lost in noise. */
  readonly levelDb: number | null;
  /** Power relative to a full-scale sine, in dB, power mean of the channels; null where `levelDb` is. */
  readonly fullScaleDb: number | null;
  /** Power over the noise power in the width of one analysis frame beside it, in dB; null where no noise could be measured. */
  readonly signalToNoiseDb: number | null;
  /** True where a partial of another string falls on it and the two can't be told apart. */
  readonly shared: boolean;
}
