/** One band of the spectrum, moment by moment. */
export interface Band {
  readonly fromHz: number;
  readonly toHz: number;
  /** Power at each frame, mean of the channels. */
  readonly power: Float64Array;
}

/** How the upper bands of a recording move; frame m is centred on `firstSeconds + m * hopSeconds`. */
export interface BandCourse {
  readonly firstSeconds: number;
  readonly hopSeconds: number;
  /** Length of a frame, a Hann window. */
  readonly frameSeconds: number;
  readonly count: number;
  /** Half-octaves from 1 kHz up. */
  readonly bands: readonly Band[];
  /** Power from 40 Hz to 1 kHz. */
  readonly lowerPower: Float64Array;
  /** 1 where a string sounds and has settled, else 0. */
  readonly isHeard: Uint8Array;
}
