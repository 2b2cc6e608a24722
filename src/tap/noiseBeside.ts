import type { DecayWindows } from "./DecayWindows.js";
import type { PoleFit } from "./fitPoles.js";
import { restOf } from "./restOf.js";

/** Places beside a vibration that are looked at, in its bandwidths, on both sides. */
const PLACES = [1.6, 2.4, 3.2, 4, 4.8];
/** Real and imaginary part of each. */
export const NOISE_FREEDOM = 4 * PLACES.length;

/**
 * By how much what is left beside each vibration moves its pole more than white noise of variance 1 would: 1 for such noise.
 *
 * The error of a pole is a projection of what is left onto its derivative, added up over taps with the phases that it has
 * in each. The same projection with its frequency moved aside shows how large that is where no vibration stands. What the
 * room adds is the same after each tap and does not average out; this sum shows that too, the spread over taps would not.
 */
export function noiseBeside(fit: PoleFit, data: DecayWindows): number[] {
  const rest = restOf(fit, data);
  const { rateHz } = data;
  return fit.poles.map(({ frequencyHz, decay }, k) => {
    const strongDecay = Math.max(decay, 2 / (rest[0]!.length / rateHz));
    const bandwidthHz = strongDecay / Math.PI;
    const places = PLACES.flatMap((bandwidths) => [-bandwidths, bandwidths])
      .map((bandwidths) => frequencyHz + bandwidths * bandwidthHz)
      .filter((hz) => hz > 20 && hz < 2950);
    const amplitudes = fit.amplitudes.map((all) => [all[2 * k]!, all[2 * k + 1]!] as const);
    const powers = places.map((hz) => projected(rest, amplitudes, hz, strongDecay, rateHz));
    return Math.max(1, powers.reduce((sum, power) => sum + power, 0) / Math.max(1, powers.length));
  });
}

/** Power of the projection at one place against that which white noise gives. */
function projected(
  rest: readonly Float64Array[],
  amplitudes: readonly (readonly [number, number])[],
  frequencyHz: number,
  decay: number,
  rateHz: number,
): number {
  const length = rest[0]!.length;
  const keep = Math.exp(-decay / rateHz);
  const count = Math.min(length, Math.ceil(16 / (decay / rateHz)));
  let [plain, times] = [0, 0];
  for (let n = 0; n < count; n++) {
    const weight = keep ** (2 * n);
    plain += weight;
    times += n * weight;
  }
  const middle = times / plain;
  const angle = (2 * Math.PI * frequencyHz) / rateHz;
  const [zRe, zIm] = [keep * Math.cos(angle), keep * Math.sin(angle)];
  let [sumRe, sumIm, expected] = [0, 0, 0];
  for (const [j, window] of rest.entries()) {
    const [aRe, aIm] = amplitudes[j]!;
    let [re, im] = [1, 0];
    let [partRe, partIm, weight] = [0, 0, 0];
    for (let n = 0; n < count; n++) {
      const value = (n - middle) * window[n]!;
      partRe += value * re;
      partIm += value * im;
      weight += (n - middle) ** 2 * (re * re + im * im);
      [re, im] = [re * zRe - im * zIm, re * zIm + im * zRe];
    }
    // Sum of c times the projection onto z^n: what points the same way after each tap adds up.
    sumRe += aRe * partRe - aIm * partIm;
    sumIm += aRe * partIm + aIm * partRe;
    expected += (aRe * aRe + aIm * aIm) * weight;
  }
  return (sumRe * sumRe + sumIm * sumIm) / expected;
}

/**
 * How strongly the whole sound of all taps, added up with the phases that a vibration has in each, comes through at the place of
 * each vibration: its power against that of white noise of variance 1. What a room adds there is a share of this.
 */
export function soundAt(fit: PoleFit, data: DecayWindows): number[] {
  return fit.poles.map(({ frequencyHz, decay }, k) => {
    const keep = Math.exp(-Math.max(decay, 2 / (data.windows[0]!.length / data.rateHz)) / data.rateHz);
    const angle = (2 * Math.PI * frequencyHz) / data.rateHz;
    const [zRe, zIm] = [keep * Math.cos(angle), keep * Math.sin(angle)];
    let [sumRe, sumIm, expected] = [0, 0, 0];
    for (const [j, window] of data.windows.entries()) {
      const [aRe, aIm] = [fit.amplitudes[j]![2 * k]!, fit.amplitudes[j]![2 * k + 1]!];
      let [re, im] = [1, 0];
      let [partRe, partIm, weight] = [0, 0, 0];
      for (const value of window) {
        partRe += value * re;
        partIm += value * im;
        weight += re * re + im * im;
        [re, im] = [re * zRe - im * zIm, re * zIm + im * zRe];
      }
      sumRe += aRe * partRe - aIm * partIm;
      sumIm += aRe * partIm + aIm * partRe;
      expected += (aRe * aRe + aIm * aIm) * weight;
    }
    return (sumRe * sumRe + sumIm * sumIm) / expected;
  });
}
