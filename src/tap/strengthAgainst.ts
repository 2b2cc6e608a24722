import { sampleSpread } from "../statistics/sampleSpread.js";
import { tQuantile } from "../statistics/tQuantile.js";

/** How strongly a mode rings against the reference. */
export interface Strength {
  readonly value: number;
  readonly interval95: readonly [number, number] | null;
  readonly standardError: number | null;
}

const LEAST_TAPS = 3;
const DB_OF_NEPER = 20 / Math.LN10;

/**
 * Level of one vibration against another over all taps, in dB: the ratio of their summed powers. The interval is by the
 * jackknife over taps (each left out once): hard and soft taps drive modes differently, and the sums are of what there was. What the room
 * adds to either is the same after every tap, and comes on top.
 *
 * @param amplitudes - of the vibration, one a tap
 * @param reference - of the other
 * @param roomShare - power that the room adds, as a share
 */
export function strengthAgainst(
  amplitudes: readonly number[],
  reference: readonly number[],
  roomShare: number,
): Strength {
  const levelOf = (skipped: number) => {
    const power = (values: readonly number[]) =>
      values.reduce((sum, value, j) => (j === skipped ? sum : sum + value * value), 0);
    return 10 * Math.log10(power(amplitudes) / power(reference));
  };
  const value = levelOf(-1);
  const count = amplitudes.length;
  if (count < LEAST_TAPS) return { value, interval95: null, standardError: null };
  const { standardDeviation } = sampleSpread(amplitudes.map((_, j) => levelOf(j)));
  const overTaps = ((count - 1) / Math.sqrt(count)) * (standardDeviation ?? 0);
  // Half of the room's power lies in phase with the vibration, and there are two of these.
  const standardError = Math.hypot(overTaps, DB_OF_NEPER * Math.sqrt(roomShare));
  const half = tQuantile(0.975, count - 1) * standardError;
  return { value, interval95: [value - half, value + half], standardError };
}
