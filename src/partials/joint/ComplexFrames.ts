/** Complex values, one a frame. */
export interface ComplexFrames {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}
