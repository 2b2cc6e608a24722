/** One partial of one string in one take, with its absolute level. */
export interface StringPartial {
  /** Which string; the same in all takes. */
  readonly string: string;
  /** Which take; left out where there is one. */
  readonly take?: string;
  /** 1 is the fundamental. */
  readonly number: number;
  readonly frequencyHz: number;
  /** Level of the string plus that of the partial within it, in dB re a full-scale sine. */
  readonly levelDb: number;
  /** Null where no noise could be measured. */
  readonly signalToNoiseDb: number | null;
}
