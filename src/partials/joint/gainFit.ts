import { KernelRows } from "../../kernels/KernelRows.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { ComplexFrames } from "./ComplexFrames.js";

/** Rows of the kernels' memory. */
const [REAL, IMAGINARY, GAIN, WEIGHTS, RESULT, ROWS] = [0, 1, 2, 3, 4, 5];

/** One amplitude along a gain, fitted to complex values. */
export interface GainFit {
  readonly real: number;
  readonly imaginary: number;
  /** Mean power of what it leaves, and of the values themselves. */
  readonly restPower: number;
  readonly meanSquare: number;
}

/**
 * Fits one complex amplitude, times a gain, to frames by weighted least squares; the rest is not weighted. By kernels
 * (`kernels/assembly/courses.ts`).
 */
export function gainFit(
  { real, imaginary }: ComplexFrames,
  gain: Float64Array,
  weights: Float64Array,
): GainFit {
  const count = gain.length;
  const rows = new KernelRows(ScratchUser.explaining, ROWS, Math.max(4, count));
  rows.put(REAL, real);
  rows.put(IMAGINARY, imaginary);
  rows.put(GAIN, gain);
  rows.put(WEIGHTS, weights);
  const { functions } = kernels();
  const [re, im, own] = [rows.place(REAL), rows.place(IMAGINARY), rows.place(GAIN)];
  functions.gainSums(re, im, own, rows.place(WEIGHTS), count, rows.place(RESULT));
  const norm = rows.value(RESULT, 2);
  const amplitudeReal = rows.value(RESULT, 0) / norm;
  const amplitudeImaginary = rows.value(RESULT, 1) / norm;
  return {
    real: amplitudeReal,
    imaginary: amplitudeImaginary,
    restPower: functions.restEnergy(re, im, own, amplitudeReal, amplitudeImaginary, rows.stride) / count,
    meanSquare: functions.energy(re, im, count) / count,
  };
}
