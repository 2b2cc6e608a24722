import type { DecayWindows } from "./DecayWindows.js";
import { stepOf } from "./decayProducts.js";
import type { PoleFit } from "./fitPoles.js";

/** Far below the noise, whose variance is 1. */
const NOTHING = 1e-12;

/** What a fit leaves of each window. */
export function restOf({ poles, amplitudes }: PoleFit, { windows, rateHz }: DecayWindows): Float64Array[] {
  return windows.map((window, j) => {
    const rest = window.slice();
    for (const [k, pole] of poles.entries()) {
      const [zRe, zIm] = stepOf(pole, rateHz);
      let re = amplitudes[j]![2 * k]!;
      let im = amplitudes[j]![2 * k + 1]!;
      for (let n = 0; n < rest.length && re * re + im * im > NOTHING; n++) {
        rest[n]! -= re;
        const next = re * zRe - im * zIm;
        im = re * zIm + im * zRe;
        re = next;
      }
    }
    return rest;
  });
}
