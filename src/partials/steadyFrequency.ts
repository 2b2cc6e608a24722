import type { PartialFrames } from "./demodulate.js";
import type { FrameGrid } from "./FrameGrid.js";

const STEPS = 4;

/**
 * Frequency of a harmonic series of constant pitch by maximum likelihood.
 *
 * For partials that don't overlap, the sum over partials of |discrete-time Fourier transform|^2 / noise density is the
 * likelihood up to a constant (Rife & Boorstyn 1974; Nielsen et al. 2017); Newton's method finds its top from a start
 * within a fraction of 1 / (duration * highest partial).
 *
 * @param frames - demodulated at a constant frequency
 * @param noiseDensity - beside each partial, power per hertz; a partial with null is left out
 * @returns how far the series lies above the demodulating frequency, in hertz
 */
export function steadyFrequency(
  frames: PartialFrames,
  grid: FrameGrid,
  noiseDensity: readonly (number | null)[],
  startHz: number,
): number {
  const middle = ((grid.count - 1) * grid.hopSeconds) / 2;
  let offsetHz = startHz;
  for (let step = 0; step < STEPS; step++) {
    let slope = 0;
    let curvature = 0;
    for (let n = 0; n < frames.real.length; n++) {
      const noise = noiseDensity[n];
      if (noise === null || noise <= 0) continue;
      const turn = 2 * Math.PI * (n + 1);
      const [a, b, c, d, e, f] = moments(frames.real[n], frames.imaginary[n], grid, middle, turn * offsetHz);
      // With A = sum z, A' = -j turn sum t z, A'' = -turn^2 sum t^2 z:
      slope += (2 * turn * (a * d - b * c)) / noise;
      curvature += (2 * turn * turn * (c * c + d * d - (a * e + b * f))) / noise;
    }
    if (!(curvature < 0)) break;
    offsetHz -= slope / curvature;
  }
  return offsetHz;
}

/** Sums of z, t z and t^2 z, real and imaginary, with z turned back by `radiansPerSecond`. */
function moments(
  real: Float64Array,
  imaginary: Float64Array,
  grid: FrameGrid,
  middle: number,
  radiansPerSecond: number,
): [number, number, number, number, number, number] {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let e = 0;
  let f = 0;
  for (let m = 0; m < real.length; m++) {
    const t = m * grid.hopSeconds - middle;
    const cosine = Math.cos(radiansPerSecond * t);
    const sine = Math.sin(radiansPerSecond * t);
    const zReal = real[m] * cosine + imaginary[m] * sine;
    const zImaginary = imaginary[m] * cosine - real[m] * sine;
    a += zReal;
    b += zImaginary;
    c += t * zReal;
    d += t * zImaginary;
    e += t * t * zReal;
    f += t * t * zImaginary;
  }
  return [a, b, c, d, e, f];
}
