/** ln(1000): amplitude falls by 60 dB in so many time constants. */
const NEPERS_OF_60_DB = Math.log(1000);

/** What frequency and Q say of a decaying mode. */
export interface ModeDecay {
  /** Width at half power (-3 dB). */
  readonly bandwidthHz: number;
  /** In which the amplitude falls to 1/e. */
  readonly decaySeconds: number;
  /** In which it falls by 60 dB. */
  readonly t60Seconds: number;
}

/**
 * Bandwidth f / Q, time constant Q / (pi f) and decay time 6.9078 Q / (pi f) of a mode.
 *
 * @example
 * ```ts
 * modeDecay(200, 30); // { bandwidthHz: 6.667, decaySeconds: 0.04775, t60Seconds: 0.3298 }
 * ```
 */
export function modeDecay(frequencyHz: number, q: number): ModeDecay {
  const decaySeconds = q / (Math.PI * frequencyHz);
  return { bandwidthHz: frequencyHz / q, decaySeconds, t60Seconds: NEPERS_OF_60_DB * decaySeconds };
}
