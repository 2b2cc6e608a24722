import { backSolved, cholesky, forwardSolved } from "../../src/statistics/cholesky.js";
import type { TapTake } from "./tapTake.js";

/** Standard deviations that no unbiased estimator can beat. */
export interface ModeBound {
  readonly lnFrequency: number;
  readonly lnQ: number;
}

const RATE_HZ = 8000;
const SECONDS = 0.95;
/** Free ringing is read from the end of the contact on, and a little later for the filters. */
const AFTER_CONTACT_SECONDS = 0.0015;

/**
 * The Cramer-Rao bound of damped sinusoids in white noise (Yao & Pandit 1995, IEEE Trans. Signal Processing 43, for one; here the
 * Fisher information of all modes and taps, amplitudes and phases unknown, by adding up the products of the derivatives sample
 * by sample). Noise of the recording counts with its density.
 */
export function tapBound({ modes, taps, starts, sampleRateHz, noiseDb }: TapTake): ModeBound[] {
  const size = 2 * modes.length;
  const variance = (0.5 * 10 ** (noiseDb / 20)) ** 2 * (RATE_HZ / sampleRateHz);
  const information = new Float64Array(size * size);
  const count = Math.round(SECONDS * RATE_HZ);
  const plain: Float64Array[] = [];
  const slopes: Float64Array[] = [];
  for (const { frequencyHz, q } of modes) {
    const decay = (Math.PI * frequencyHz) / q;
    const wave = (turn: number, weight: (t: number) => number) =>
      Float64Array.from({ length: count }, (_, n) => {
        const t = n / RATE_HZ;
        return weight(t) * Math.exp(-decay * t) * Math.cos(2 * Math.PI * frequencyHz * t + turn);
      });
    plain.push(
      wave(0, () => 1),
      wave(Math.PI / 2, () => 1),
    );
    slopes.push(
      wave(0, (t) => t),
      wave(Math.PI / 2, (t) => t),
    );
  }
  const factor = cholesky(gram(plain, plain), size);
  if (factor === null) throw new Error("modes coincide");
  const cross = gram(plain, slopes);
  const whitened = slopes.map((_, column) =>
    forwardSolved(
      factor,
      Float64Array.from({ length: size }, (__, row) => cross[row * size + column]!),
    ),
  );
  const outside = gram(slopes, slopes).map(
    (value, i) => value - dot(whitened[Math.floor(i / size)]!, whitened[i % size]!),
  );
  for (const [j, tap] of taps.entries()) {
    const from = tap.contactSeconds + AFTER_CONTACT_SECONDS;
    // Tangents by real part (minus decay) and imaginary part (2 pi f) of each exponent, in terms of the slope columns.
    const tangents = modes.flatMap(({ frequencyHz, q }, k) => {
      const [re, im] = starts[j]![k]!;
      const shrink = Math.exp((-Math.PI * frequencyHz * from) / q);
      const angle = 2 * Math.PI * frequencyHz * from;
      const a = shrink * (re * Math.cos(angle) - im * Math.sin(angle));
      const b = shrink * (re * Math.sin(angle) + im * Math.cos(angle));
      return [
        { k, at: [a, b] as const },
        { k, at: [-b, a] as const },
      ];
    });
    for (const [row, one] of tangents.entries()) {
      for (const [column, other] of tangents.entries()) {
        for (const u of [0, 1]) {
          for (const v of [0, 1]) {
            information[row * size + column]! +=
              (one.at[u]! * other.at[v]! * outside[(2 * one.k + u) * size + 2 * other.k + v]!) / variance;
          }
        }
      }
    }
  }
  const root = cholesky(information, size);
  return modes.map(({ frequencyHz, q }, k) => {
    const deviation = (index: number) => {
      if (root === null) return Number.POSITIVE_INFINITY;
      const unit = new Float64Array(size);
      unit[index] = 1;
      return Math.sqrt(backSolved(root, forwardSolved(root, unit))[index]!);
    };
    return {
      lnFrequency: deviation(2 * k + 1) / (2 * Math.PI * frequencyHz),
      lnQ: deviation(2 * k) / ((Math.PI * frequencyHz) / q),
    };
  });
}

function gram(rows: readonly Float64Array[], columns: readonly Float64Array[]): Float64Array {
  return Float64Array.from(rows.flatMap((row) => columns.map((column) => dot(row, column))));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
