import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { median } from "../signal/median.js";
import { leastSquares } from "../statistics/leastSquares.js";

/** A swing that keeps one rate through the passage. */
export interface WheelSwing {
  readonly rateHz: number;
  /** Peak, half of peak to peak. */
  readonly amplitude: number;
  /** True where the line stands so far out that slow random movement does not make it. */
  readonly certain: boolean;
  /** The series with the swing taken out, its mean the mean without the swing. */
  readonly residual: Float64Array;
}

/** Rates of cranking (and its double, two pushes a turn) that are looked for. */
const SLOWEST_HZ = 0.5;
const FASTEST_HZ = 5;
const LEAST_DETERMINANT = 1e-12;
/** A line must be this many times the median of its neighbourhood, so that random movement seldom passes for one. */
const LINE_OVER_NEIGHBOURS = 12;
/** Movement slower than the wheel has its power at low rates, and makes lines over 12 times; over 35 it is rare. */
const CERTAIN_OVER_NEIGHBOURS = 35;

/**
 * Finds the strongest sinusoid in a series by least squares over a grid of rates, and takes it out together with the
 * bias it puts on the mean of a passage that is not a whole number of turns.
 *
 * @param values - evenly spaced, `stepSeconds` apart
 * @returns null where no line stands out of its neighbourhood, or the series is shorter than 1.2 turns
 */
export function wheelSwing(values: Float64Array, stepSeconds: number): WheelSwing | null {
  const duration = values.length * stepSeconds;
  const plain = values.reduce((sum, value) => sum + value, 0) / values.length;
  const total = values.reduce((sum, value) => sum + (value - plain) ** 2, 0);
  if (!(total > 0)) return null;
  const centred = values.map((value) => value - plain);
  const lowestHz = Math.max(SLOWEST_HZ, 1.2 / duration);
  const all = gainsOf(centred, stepSeconds, lowestHz, 0.1 / duration);
  const rates: number[] = [];
  const gains: number[] = [];
  let best = -1;
  let rateHz = lowestHz;
  for (let i = 0; i < all.length; i++, rateHz += 0.1 / duration) {
    if (Number.isNaN(all[i])) continue;
    rates.push(rateHz);
    gains.push(all[i]);
    if (best < 0 || all[i] > gains[best]) best = gains.length - 1;
  }
  if (best < 0) return null;
  const neighbours = gains.filter((_, i) => {
    const ratio = rates[i] / rates[best];
    return Math.abs(rates[i] - rates[best]) > 1.2 / duration && ratio > 0.4 && ratio < 2.5;
  });
  const around = median(neighbours);
  if (neighbours.length < 4 || gains[best] <= LINE_OVER_NEIGHBOURS * around) return null;
  const fit = fitAt(values, stepSeconds, rates[best]);
  if (fit === null) return null;
  const certain = gains[best] > CERTAIN_OVER_NEIGHBOURS * around;
  return { rateHz: rates[best], amplitude: fit.amplitude, certain, residual: fit.residual };
}

/**
 * By how much sinusoids of rates from `lowestHz` to the fastest lessen the sum of squares of a series whose mean is 0, its own
 * mean fitted along with them, by a kernel. Not a number where the series is too short to tell one from a constant.
 */
function gainsOf(centred: Float64Array, stepSeconds: number, lowestHz: number, stepHz: number): Float64Array {
  const most = Math.max(0, Math.ceil((FASTEST_HZ - lowestHz) / stepHz)) + 2;
  const rows = new KernelRows(ScratchUser.swing, 2, Math.max(most, centred.length));
  rows.put(0, centred);
  // biome-ignore format: arguments of a kernel
  const count = kernels().functions.sinusoidGains(rows.place(0), centred.length, stepSeconds, lowestHz, stepHz, FASTEST_HZ, LEAST_DETERMINANT, rows.place(1));
  return rows.copy(1, count);
}

function fitAt(values: Float64Array, stepSeconds: number, rateHz: number) {
  const turn = 2 * Math.PI * rateHz * stepSeconds;
  const cosine = values.map((_, m) => Math.cos(turn * m));
  const sine = values.map((_, m) => Math.sin(turn * m));
  const found = leastSquares([new Float64Array(values.length).fill(1), cosine, sine], values);
  if (found === null) return null;
  const [mean, real, imaginary] = found;
  return {
    mean,
    amplitude: Math.hypot(real, imaginary),
    residual: values.map((value, m) => value - real * cosine[m] - imaginary * sine[m]),
  };
}
