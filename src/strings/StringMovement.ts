/** How pitch and level of a string moved through a passage, from its start to its end. */
export interface StringMovement {
  readonly hopSeconds: number;
  /** Deviation from the mean pitch gone through so far, in cents times seconds: its differences are exact means. */
  readonly centSeconds: Float64Array;
  /** Level against the mean, at the same moments. */
  readonly levelDb: Float64Array;
}
