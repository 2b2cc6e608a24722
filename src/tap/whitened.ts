import { burgFilter } from "../statistics/burgFilter.js";

/** A signal whose noise has been made white and of variance 1, and the filter that did it. */
export interface Whitened {
  readonly samples: Float64Array;
  /** Noise-whitening filter, its gain included: samples[n] = sum of filter[i] times what was given at n - i. */
  readonly filter: Float64Array;
}

const ORDER = 8;
/** Where no noise is to be heard: this far under the peak (-120 dB). */
const LEAST_NOISE = 1e-6;

/**
 * Makes the noise between the taps white: an autoregression of the pauses (Burg), as a filter. A decaying vibration goes
 * through it unchanged but for a complex factor that is known, once its start is a filter's length ago.
 *
 * @param pauses - what is heard where nothing was tapped
 */
export function whitened(samples: Float64Array, pauses: Float64Array, peak: number): Whitened {
  const shape = burgFilter(pauses, ORDER);
  const noise = filtered(pauses, shape).subarray(shape.length);
  const power = noise.reduce((sum, value) => sum + value * value, 0) / Math.max(1, noise.length);
  const gain = 1 / Math.max(Math.sqrt(power), LEAST_NOISE * peak);
  const filter = shape.map((value) => gain * value);
  return { samples: filtered(samples, filter), filter };
}

function filtered(samples: Float64Array, filter: Float64Array): Float64Array {
  return samples.map((_, n) => {
    let sum = 0;
    for (let i = 0; i < filter.length && i <= n; i++) sum += filter[i]! * samples[n - i]!;
    return sum;
  });
}
