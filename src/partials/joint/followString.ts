import { KernelRows } from "../../kernels/KernelRows.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { PartialFrames } from "../demodulate.js";
import { phaseCourse } from "../phaseCourse.js";
import { smoothCourse, smoothInto } from "../smoothFrames.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import { type JointState, type JointString, moveAlong } from "./JointState.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";

/** Frames this far apart share hardly any smoothed noise. */
const LAG_SECONDS = 0.1;
/** Frames this far apart share little noise, and the strength has hardly bent in between. */
const BEND_SECONDS = 0.065;
/** Variance of a value less the mean of two others of the same variance, independent of it. */
const SECOND_DIFFERENCE = 1.5;
/** A partial with this signal-to-noise shows how the string's strength moves. */
const LEAST_RATIO = 20;
const scratch = new FrameScratch();
const LEAST_GAIN = 0.3;
const MOST_GAIN = 3;
/** What is summed up of a phasor (`phasorSums`). */
const SUMS = 5;
/** Where a neighbour could be the partial itself to this degree, the split says nothing about the phase. */
const LARGEST_OVERLAP = 0.5;

/**
 * Follows a string's pitch along its own partials, or where it has too few, along shared ones with the other strings
 * taken out, and moves it onto that course.
 *
 * @returns false where no partial could be followed; the string stays where it was
 */
export function followString(state: JointState, string: JointString): boolean {
  const { grid } = state;
  const parts = trustedPartials(state, string);
  if (parts.length === 0) return false;
  const smoothed = {
    real: parts.map(({ real }) => real),
    imaginary: parts.map(({ imaginary }) => imaginary),
  };
  const lag = Math.round(LAG_SECONDS / grid.hopSeconds);
  const bendFrames = Math.round(BEND_SECONDS / grid.hopSeconds);
  const ratios = parts.map((_, i) => signalToNoise(smoothed.real[i], smoothed.imaginary[i], lag, bendFrames));
  const found = phaseCourse(
    smoothed,
    ratios,
    parts.map(({ number }) => number),
  );
  if (found === null) return false;
  string.gain = commonGain(smoothed, ratios);
  const added = smoothCourse(found.cycles, grid);
  for (let m = 0; m < added.length; m++) added[m] += string.courseCycles[m];
  moveAlong(state, string, added);
  return true;
}

/** The partials that say something about the phase, smoothed, the other strings taken out. */
function trustedPartials(state: JointState, string: JointString) {
  const parts: (ComplexFrames & { readonly number: number })[] = [];
  for (let number = 1; number <= string.partialCount; number++) {
    if (string.ownCourse && !string.own[number - 1]) continue;
    const near = neighbours(state, string, number, NEIGHBOUR_HZ);
    if (!string.ownCourse && near.some((one) => !one.string.located)) continue;
    const part = separatePartial(state, string, number, near, true, scratch.take(0, state.grid.count));
    if (part.overlap >= LARGEST_OVERLAP) continue;
    const smoothed = scratch.take(parts.length + 1, state.grid.count);
    smoothInto(smoothed, part, state.grid);
    parts.push({ number, ...smoothed });
  }
  return parts;
}

/**
 * Signal to noise of a phasor, blind to its frequency. Two ways of looking, and the better counts: noise of power P moves
 * the size of an amplitude A by P / (2 A^2), told from the slow movement of the strength by second differences; and it
 * breaks the coherence over a lag at which smoothed noise has changed, but so does a swinging pitch.
 */
function signalToNoise(real: Float64Array, imaginary: Float64Array, lag: number, bendFrames: number): number {
  const count = real.length;
  const rows = new KernelRows(ScratchUser.following, 4, Math.max(SUMS, count));
  rows.put(0, real);
  rows.put(1, imaginary);
  const [realAt, imaginaryAt, sizesAt, sumsAt] = [0, 1, 2, 3].map((row) => rows.place(row));
  kernels().functions.phasorSums(realAt, imaginaryAt, count, lag, bendFrames, sizesAt, sumsAt);
  const [sum, squares, crossReal, crossImaginary, bends] = rows.copy(3, SUMS);
  if (!(squares > 0)) return 0;
  const mean = sum / count;
  const variance = bends / SECOND_DIFFERENCE / Math.max(1, count - 2 * bendFrames);
  const bySize = (mean * mean) / Math.max(2 * variance, 1e-9 * mean * mean);
  const coherence = (Math.hypot(crossReal, crossImaginary) * count) / (count - lag) / squares;
  return Math.max(bySize, Math.min(1, coherence) / Math.max(1e-9, 1 - coherence));
}

/** The common movement of the amplitudes of all partials that can be followed, each counting with its strength. */
function commonGain(frames: PartialFrames, ratios: readonly number[]): Float64Array {
  const count = frames.real[0].length;
  const rows = new KernelRows(ScratchUser.following, 3, count);
  const [realAt, imaginaryAt, sumAt] = [0, 1, 2].map((row) => rows.place(row));
  rows.fill(2, 0);
  for (const [n, ratio] of ratios.entries()) {
    if (ratio < LEAST_RATIO) continue;
    rows.put(0, frames.real[n]);
    rows.put(1, frames.imaginary[n]);
    kernels().functions.addSizes(realAt, imaginaryAt, count, sumAt);
  }
  // A pause or a slip in the middle must not make the gain run away.
  kernels().functions.toShares(sumAt, count, LEAST_GAIN, MOST_GAIN);
  return rows.copy(2);
}
