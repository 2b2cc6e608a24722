/** Frame-wise fundamental of a whole recording; frame k is centred on `k * hopSeconds`. */
export interface PitchTrack {
  readonly hopSeconds: number;
  /** Fundamental of each frame in hertz; 0 where no periodicity was found. */
  readonly frequencyHz: Float32Array;
  /** Height of the autocorrelation peak, 0 to 1. */
  readonly clarity: Float32Array;
  /** Level of each frame between 36 Hz and 3 kHz, power mean of the channels, re full-scale sine; -200 for silence. */
  readonly levelDb: Float32Array;
}
