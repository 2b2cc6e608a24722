/** What is heard after each tap: stretches of one length and rate, their noise brought to a variance of 1. */
export interface DecayWindows {
  readonly rateHz: number;
  /** One a tap, all of one length. */
  readonly windows: readonly Float64Array[];
}
