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
  const rows = new KernelRows(ScratchUser.swing, 2, Math.max(2, centred.length));
  rows.put(0, centred);
  const rates: number[] = [];
  const gains: number[] = [];
  let best = -1;
  for (let rate = Math.max(SLOWEST_HZ, 1.2 / duration); rate <= FASTEST_HZ; rate += 0.1 / duration) {
    const gain = gainAt(centred, rows, 2 * Math.PI * rate * stepSeconds);
    if (gain === null) continue;
    rates.push(rate);
    gains.push(gain);
    if (best < 0 || gain > gains[best]) best = gains.length - 1;
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
 * By how much a sinusoid lessens the sum of squares of a series whose mean is 0, its own mean fitted along with it.
 *
 * @param rows - of the kernels' memory: the series, and one for a result
 * @param turn - radians from one value to the next
 * @returns null where the series is too short to tell the sinusoid from a constant
 */
function gainAt(centred: Float64Array, rows: KernelRows, turn: number): number | null {
  const count = centred.length;
  // Sums of cosines and sines are geometric series; the products with the values follow from Goertzel's recursion.
  const [sumCosine, sumSine] = phasorSum(turn, count);
  const [sumCosineTwice, sumSineTwice] = phasorSum(2 * turn, count);
  const cosineCosine = (count + sumCosineTwice) / 2;
  const cosineSine = sumSineTwice / 2;
  const twiceCosine = 2 * Math.cos(turn);
  kernels().functions.recursion(rows.place(0), count, twiceCosine, rows.place(1));
  const last = rows.value(1, 0);
  const beforeLast = rows.value(1, 1);
  const valueCosine = centred[0] + (twiceCosine / 2) * last - beforeLast;
  const valueSine = Math.sin(turn) * last;
  const a = cosineCosine - (sumCosine * sumCosine) / count;
  const b = cosineSine - (sumCosine * sumSine) / count;
  const c = count - cosineCosine - (sumSine * sumSine) / count;
  const determinant = a * c - b * b;
  if (!(determinant > 1e-12)) return null;
  return (
    (c * valueCosine * valueCosine - 2 * b * valueCosine * valueSine + a * valueSine * valueSine) /
    determinant
  );
}

/** Sums over m from 0 to count - 1 of cos(turn m) and sin(turn m). */
function phasorSum(turn: number, count: number): [cosine: number, sine: number] {
  const scale = Math.sin((count * turn) / 2) / Math.sin(turn / 2);
  const middle = ((count - 1) * turn) / 2;
  return [scale * Math.cos(middle), scale * Math.sin(middle)];
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
