import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";
import { stepOf } from "./decayProducts.js";
import type { FreeRinging } from "./followBack.js";

/** Amplitudes of all poles as each tap begins. */
export interface TapAmplitudes {
  /** By tap and pole: amplitude in the recording, carried back to the onset. */
  readonly amplitudes: readonly Float64Array[];
  /** By tap and pole: amplitude in the window against its standard error in noise of variance 1. */
  readonly overNoise: readonly Float64Array[];
}

/**
 * Amplitudes of the vibrations at the onset of each tap, with what the noise-whitening filter did to them undone.
 *
 * @param filter - of the noise, see `whitened`
 */
export function tapAmplitudes({ fit, data, delays }: FreeRinging, filter: Float64Array): TapAmplitudes {
  const count = fit.poles.length;
  const factor = cholesky(fit.gram, 2 * count);
  const variances = Float64Array.from({ length: count }, (_, k) =>
    [2 * k, 2 * k + 1].reduce((sum, index) => {
      if (factor === null) return Number.POSITIVE_INFINITY;
      const unit = new Float64Array(2 * count);
      unit[index] = 1;
      return sum + backSolved(factor, forwardSolved(factor, unit))[index]!;
    }, 0),
  );
  const steps = fit.poles.map((pole) => stepOf(pole, data.rateHz));
  const gains = steps.map(([re, im]) => gainAt(filter, re, im));
  const sizes = fit.amplitudes.map((all) =>
    Float64Array.from({ length: count }, (_, k) => Math.hypot(all[2 * k]!, all[2 * k + 1]!)),
  );
  return {
    amplitudes: sizes.map((size, j) =>
      size.map((value, k) => (value * Math.hypot(...steps[k]!) ** -delays[j]!) / gains[k]!),
    ),
    overNoise: sizes.map((size) => size.map((value, k) => value / Math.sqrt(variances[k]!))),
  };
}

/** Size of the sum of filter[i] z^-i. */
function gainAt(filter: Float64Array, zRe: number, zIm: number): number {
  const size = zRe * zRe + zIm * zIm;
  const [backRe, backIm] = [zRe / size, -zIm / size];
  let [powerRe, powerIm, sumRe, sumIm] = [1, 0, 0, 0];
  for (const tap of filter) {
    sumRe += tap * powerRe;
    sumIm += tap * powerIm;
    [powerRe, powerIm] = [powerRe * backRe - powerIm * backIm, powerRe * backIm + powerIm * backRe];
  }
  return Math.hypot(sumRe, sumIm);
}
