import type { PartialFrames } from "./demodulate.js";

/** How much each partial's phase counts, and why some don't. */
export interface PhaseCourse {
  /** Phase of the fundamental over what the demodulation assumed, in cycles, at each frame. */
  readonly cycles: Float64Array;
  /** Weight of each partial, summing to 1; 0 for one that was left out. */
  readonly weights: Float64Array;
  /** Numbers of clear partials that follow another course, so that they were left out. */
  readonly strayed: readonly number[];
}

/**
 * No partial follows the common course better than this (radians squared of the fundamental), however little noise
 * there is: on real bowed notes the courses of clear partials differ by about 0.02 rad, whatever their number. So clear
 * partials count alike, and those near the noise by the Cramer-Rao weighting.
 */
const COURSE_FLOOR = 3e-4;
/** A partial whose phase strays this far (radians, rms) from the common course does not follow it. */
const LARGEST_STRAY = 0.6;
/** A partial is followed where it stands this far (as a power ratio) above the noise of one frame ... */
const LEAST_SIGNAL_TO_NOISE = 20;
/** ... and never fades to less than this share of its mean power, where a cycle could slip. */
const LEAST_FADE = 0.05;
const NOT_LOOKED_AT = new Float64Array(0);

/**
 * The common phase of all partials: partial n goes n times as fast as the fundamental, so its phase over n is one more
 * measurement of the same course. They are averaged with weights 1 / variance, where noise gives 1 / (2 n^2 SNR), the
 * weighting of the Cramer-Rao bound of a harmonic series (Nielsen et al. 2017).
 *
 * @param signalToNoise - power ratio of each partial in one frame; null where unknown
 * @param numbers - which partials they are; 1, 2, 3, ... where not given
 * @returns null where no partial can be followed
 */
export function phaseCourse(
  frames: PartialFrames,
  signalToNoise: readonly (number | null)[],
  numbers: readonly number[] = frames.real.map((_, n) => n + 1),
): PhaseCourse | null {
  const count = frames.real[0]?.length ?? 0;
  const weights = new Float64Array(numbers.length);
  for (let n = 0; n < numbers.length; n++) {
    const ratio = signalToNoise[n] ?? 0;
    if (ratio < LEAST_SIGNAL_TO_NOISE || fades(frames.real[n], frames.imaginary[n])) continue;
    weights[n] = 1 / (1 / (2 * ratio * numbers[n] ** 2) + COURSE_FLOOR);
  }
  const phases = frames.real.map((real, n) =>
    weights[n] > 0 ? unwrapped(real, frames.imaginary[n]) : NOT_LOOKED_AT,
  );
  const strayed: number[] = [];
  for (;;) {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    if (!(total > 0)) return null;
    const cycles = new Float64Array(count);
    for (let n = 0; n < phases.length; n++) {
      if (weights[n] === 0) continue;
      const scale = weights[n] / total / (2 * Math.PI * numbers[n]);
      for (let m = 0; m < count; m++) cycles[m] += scale * phases[n][m];
    }
    const worst = worstStray(phases, numbers, cycles, weights);
    if (worst === null) return { cycles, weights: weights.map((weight) => weight / total), strayed };
    weights[worst] = 0;
    strayed.push(numbers[worst]);
  }
}

function unwrapped(real: Float64Array, imaginary: Float64Array): Float64Array {
  const phases = new Float64Array(real.length);
  let total = 0;
  for (let m = 1; m < real.length; m++) {
    total += Math.atan2(
      imaginary[m] * real[m - 1] - real[m] * imaginary[m - 1],
      real[m] * real[m - 1] + imaginary[m] * imaginary[m - 1],
    );
    phases[m] = total;
  }
  let sum = 0;
  for (let m = 0; m < phases.length; m++) sum += phases[m];
  const mean = sum / Math.max(1, phases.length);
  for (let m = 0; m < phases.length; m++) phases[m] -= mean;
  return phases;
}

function fades(real: Float64Array, imaginary: Float64Array): boolean {
  let lowest = Number.POSITIVE_INFINITY;
  let mean = 0;
  for (let m = 0; m < real.length; m++) {
    const power = real[m] ** 2 + imaginary[m] ** 2;
    mean += power / real.length;
    if (power < lowest) lowest = power;
  }
  return lowest < LEAST_FADE * mean;
}

/** The partial to leave out: of those that stray, the one whose course of the fundamental lies furthest off. */
function worstStray(
  phases: readonly Float64Array[],
  numbers: readonly number[],
  cycles: Float64Array,
  weights: Float64Array,
): number | null {
  let worst: number | null = null;
  let furthest = 0;
  if (weights.reduce((count, weight) => count + (weight > 0 ? 1 : 0), 0) < 2) return null;
  for (let n = 0; n < phases.length; n++) {
    if (weights[n] === 0) continue;
    let sum = 0;
    const turn = 2 * Math.PI * numbers[n];
    for (let m = 0; m < cycles.length; m++) sum += (phases[n][m] - turn * cycles[m]) ** 2;
    const stray = Math.sqrt(sum / cycles.length);
    if (stray <= LARGEST_STRAY || stray / numbers[n] <= furthest) continue;
    furthest = stray / numbers[n];
    worst = n;
  }
  return worst;
}
