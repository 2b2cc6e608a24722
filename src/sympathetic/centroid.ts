import type { DampedMode } from "./DampedMode.js";
import type { PartialFit } from "./fitPartial.js";

/** Where a partial stands as a whole, with standard deviations from its fit. */
export interface Centroid {
  readonly frequencyHz: number;
  readonly frequencyDeviationHz: number;
  /** The decay of one sine with the same strength at first and the same energy in all. */
  readonly decayPerSecond: number;
  readonly decayDeviation: number;
}

/** Steps of the numerical derivatives: share of the amplitude, decay a second, radians a second. */
const STEP = 1e-4;

/**
 * Mean frequency of a partial over a stretch, weighted with its energy: the integral of |x|^2 times the momentary frequency over
 * that of |x|^2. For one decaying sine it is its frequency; for two that beat, the pitch that is heard in the mean.
 */
export function centroid({ modes, covariance }: PartialFit, endSeconds: number): Centroid {
  const at = (given: readonly DampedMode[]) => [meanHz(given, endSeconds), meanDecay(given)] as const;
  const [frequencyHz, decayPerSecond] = at(modes);
  const size = Math.max(...modes.map(({ re, im }) => Math.hypot(re, im)));
  const gradients = modes.flatMap((mode, k) =>
    [
      { ...mode, re: mode.re + STEP * size },
      { ...mode, im: mode.im + STEP * size },
      { ...mode, decayPerSecond: mode.decayPerSecond + STEP },
      { ...mode, frequencyHz: mode.frequencyHz + STEP / (2 * Math.PI) },
    ].map((one, i) => {
      const [hz, decay] = at(modes.map((same, other) => (other === k ? one : same)));
      const step = i < 2 ? STEP * size : STEP;
      return [(hz - frequencyHz) / step, (decay - decayPerSecond) / step] as const;
    }),
  );
  let hzVariance = 0;
  let decayVariance = 0;
  for (const [a, row] of gradients.entries()) {
    for (const [b, column] of gradients.entries()) {
      const value = covariance[a * gradients.length + b];
      hzVariance += row[0] * column[0] * value;
      decayVariance += row[1] * column[1] * value;
    }
  }
  return {
    frequencyHz,
    frequencyDeviationHz: Math.sqrt(Math.max(0, hzVariance)),
    decayPerSecond,
    decayDeviation: Math.sqrt(Math.max(0, decayVariance)),
  };
}

/** Closed form: each pair of modes gives integral of exp(-(a + b) t + j w t) over the stretch. */
function meanHz(modes: readonly DampedMode[], endSeconds: number): number {
  let weighted = 0;
  let energy = 0;
  for (const a of modes) {
    for (const b of modes) {
      const decay = a.decayPerSecond + b.decayPerSecond;
      const omega = 2 * Math.PI * (a.frequencyHz - b.frequencyHz);
      const [re, im] = exponentialIntegral(-decay, omega, endSeconds);
      const [productRe, productIm] = [a.re * b.re + a.im * b.im, a.im * b.re - a.re * b.im];
      const part = productRe * re - productIm * im;
      energy += part;
      weighted += part * a.frequencyHz;
      // Im(s_a P), s_a the complex rate of mode a.
      weighted -= (a.decayPerSecond * (productRe * im + productIm * re)) / (2 * Math.PI);
    }
  }
  return weighted / energy;
}

function exponentialIntegral(real: number, imaginary: number, end: number): readonly [number, number] {
  const size = Math.exp(real * end);
  const [topRe, topIm] = [size * Math.cos(imaginary * end) - 1, size * Math.sin(imaginary * end)];
  const square = real * real + imaginary * imaginary;
  if (square < 1e-12) return [end, 0];
  return [(topRe * real + topIm * imaginary) / square, (topIm * real - topRe * imaginary) / square];
}

function meanDecay(modes: readonly DampedMode[]): number {
  let start = 0;
  let energy = 0;
  for (const { re, im, decayPerSecond } of modes) {
    const power = re * re + im * im;
    start += power;
    energy += power / (2 * Math.max(0.05, decayPerSecond));
  }
  return modes.length === 1 ? modes[0].decayPerSecond : start / (2 * energy);
}
