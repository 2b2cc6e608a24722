import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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
/** Besides a row of phases for each partial: real and imaginary part of one, and the course. */
const OTHER_ROWS = 3;

/**
 * The common phase of all partials: partial n goes n times as fast as the fundamental, so its phase over n is one more
 * measurement of the same course. They are averaged with weights 1 / variance, where noise gives 1 / (2 n^2 SNR), the
 * weighting of the Cramer-Rao bound of a harmonic series (Nielsen et al. 2017). By kernels (`kernels/assembly/courses.ts`).
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
  const rows = new KernelRows(ScratchUser.courses, numbers.length + OTHER_ROWS, count);
  const [real, imaginary, common] = [numbers.length, numbers.length + 1, numbers.length + 2];
  const { functions } = kernels();
  const weights = new Float64Array(numbers.length);
  for (let n = 0; n < numbers.length; n++) {
    const ratio = signalToNoise[n] ?? 0;
    if (ratio < LEAST_SIGNAL_TO_NOISE) continue;
    rows.put(real, frames.real[n]);
    rows.put(imaginary, frames.imaginary[n]);
    if (functions.leastShare(rows.place(real), rows.place(imaginary), count) < LEAST_FADE) continue;
    functions.unwrap(rows.place(real), rows.place(imaginary), count, rows.place(n));
    weights[n] = 1 / (1 / (2 * ratio * numbers[n] ** 2) + COURSE_FLOOR);
  }
  const strayed: number[] = [];
  for (;;) {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    if (!(total > 0)) return null;
    rows.fill(common, 0);
    for (let n = 0; n < numbers.length; n++) {
      if (weights[n] === 0) continue;
      const scale = weights[n] / total / (2 * Math.PI * numbers[n]);
      functions.addScaled(rows.place(n), scale, count, rows.place(common));
    }
    const worst = worstStray(rows, common, numbers, weights);
    if (worst === null) {
      return { cycles: rows.copy(common), weights: weights.map((weight) => weight / total), strayed };
    }
    weights[worst] = 0;
    strayed.push(numbers[worst]);
  }
}

/** The partial to leave out: of those that stray, the one whose course of the fundamental lies furthest off. */
function worstStray(
  rows: KernelRows,
  common: number,
  numbers: readonly number[],
  weights: Float64Array,
): number | null {
  let worst: number | null = null;
  let furthest = 0;
  if (weights.reduce((count, weight) => count + (weight > 0 ? 1 : 0), 0) < 2) return null;
  const { functions } = kernels();
  for (let n = 0; n < numbers.length; n++) {
    if (weights[n] === 0) continue;
    const turn = 2 * Math.PI * numbers[n];
    const squares = functions.strayEnergy(rows.place(n), rows.place(common), turn, rows.length);
    const stray = Math.sqrt(squares / rows.length);
    if (stray <= LARGEST_STRAY || stray / numbers[n] <= furthest) continue;
    furthest = stray / numbers[n];
    worst = n;
  }
  return worst;
}
