import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";
import type { DecayWindows } from "./DecayWindows.js";
import { type DecayProducts, decayProducts } from "./decayProducts.js";
import type { Pole } from "./Pole.js";

/** Decaying vibrations fitted to all taps together. */
export interface PoleFit {
  readonly poles: readonly Pole[];
  /** By window and pole: the complex amplitude c (real and imaginary part) of Re(c z^n). */
  readonly amplitudes: readonly Float64Array[];
  /** What is left: sum of squares over all windows. */
  readonly restPower: number;
  /**
   * Information on exponents, row by row, two a pole: real part (minus the decay) and imaginary part (the frequency), per
   * sample; for noise of variance 1, amplitudes unknown. Its inverse is the Cramer-Rao bound.
   */
  readonly information: Float64Array;
  /** Gram matrix of the vibrations, 2 a pole. Its inverse is the covariance of the amplitudes of one window, poles known. */
  readonly gram: Float64Array;
}

/** Bounds within which poles may move. */
const LOWEST_HZ = 25;
const HIGHEST_HZ = 2950;
const LEAST_DECAY = -0.3;
/** Broader than this is no mode but what is left of the push; a pole that wants to go there stays at the edge. */
export const LEAST_Q = 4.5;
const MOST_STEPS = 40;
/** A step that lowers the sum of squares by less, in units of the noise's variance, is the last. */
const ENOUGH = 1e-3;

/**
 * Least squares over the poles common to all windows, the amplitudes of each window free: variable projection (Golub & Pereyra
 * 1973, with the simplification of Kaufman 1975), Levenberg-Marquardt steps. For white noise it is the maximum-likelihood
 * estimate.
 *
 * The columns are the same in all windows, so one factorisation serves all of them; all matrices are of the size of the poles.
 *
 * @param start - poles to start from
 * @param totalPower - sum of squares of all windows
 * @returns null where the poles given can't be told apart
 */
export function fitPoles(
  start: readonly Pole[],
  data: DecayWindows,
  totalPower: number,
  steps = MOST_STEPS,
): PoleFit | null {
  const first = solved(start, data, totalPower);
  if (first === null) return null;
  let best = first;
  let damping = 1e-3;
  for (let step = 0; step < steps; step++) {
    const move = stepFrom(best, damping);
    const moved = move === null ? null : movedBy(best.fit.poles, move.by, data.rateHz);
    const next: Solved | null = moved === null ? null : solved(moved, data, totalPower);
    if (next !== null && next.fit.restPower < best.fit.restPower) {
      const gain = best.fit.restPower - next.fit.restPower;
      best = next;
      damping = Math.max(1e-9, damping / 8);
      if (gain < ENOUGH) break;
    } else {
      if (move !== null && move.promised < ENOUGH) break;
      damping *= 6;
      if (damping > 1e8) break;
    }
  }
  return best.fit;
}

interface Solved {
  readonly fit: PoleFit;
  /** Slope of half the sum of squares, by the exponents. */
  readonly slope: Float64Array;
}

/** What one window by itself says of the exponents: slope and information, amplitudes projected out, as in {@link PoleFit}. */
export function slopesByWindow(
  fit: PoleFit,
  data: DecayWindows,
): { slope: Float64Array; information: Float64Array }[] {
  const products = decayProducts(fit.poles, data);
  const factor = cholesky(fit.gram, 2 * fit.poles.length);
  if (factor === null) return [];
  return fit.amplitudes.map((amplitude, j) =>
    secondOrder({ gram: products.gram, right: [products.right[j]!] }, factor, [amplitude]),
  );
}

function solved(poles: readonly Pole[], data: DecayWindows, totalPower: number): Solved | null {
  const products = decayProducts(poles, data);
  const half = 2 * poles.length;
  const gram = block(products.gram, 2 * half, 0, 0, half);
  const factor = cholesky(gram, half);
  if (factor === null) return null;
  const amplitudes = products.right.map((right) =>
    backSolved(factor, forwardSolved(factor, right.subarray(0, half))),
  );
  const explained = amplitudes.reduce((sum, amplitude, j) => {
    const right = products.right[j]!;
    return sum + amplitude.reduce((part, value, i) => part + value * right[i]!, 0);
  }, 0);
  const { slope, information } = secondOrder(products, factor, amplitudes);
  const restPower = totalPower - explained;
  return { fit: { poles, amplitudes, restPower, information, gram }, slope };
}

/** Slope and information by the exponents, amplitudes projected out. */
function secondOrder(
  { gram, right }: DecayProducts,
  factor: Float64Array,
  amplitudes: readonly Float64Array[],
) {
  const half = amplitudes[0]?.length ?? 0;
  const size = 2 * half;
  // What of the derivative columns lies outside the vibrations: with L L' the Gram matrix, D'D - (L^-1 B'D)' (L^-1 B'D).
  const whitened = Array.from({ length: half }, (_, column) =>
    forwardSolved(
      factor,
      Float64Array.from({ length: half }, (_, row) => gram[row * size + half + column]!),
    ),
  );
  const outside = new Float64Array(half * half);
  for (let row = 0; row < half; row++) {
    for (let column = 0; column <= row; column++) {
      let value = gram[(half + row) * size + half + column]!;
      for (let i = 0; i < half; i++) value -= whitened[row]![i]! * whitened[column]![i]!;
      outside[row * half + column] = value;
      outside[column * half + row] = value;
    }
  }
  const slope = new Float64Array(half);
  const information = new Float64Array(half * half);
  for (const [j, amplitude] of amplitudes.entries()) {
    const rest = Float64Array.from({ length: half }, (_, column) => {
      let value = right[j]![half + column]!;
      for (let i = 0; i < half; i++) value -= gram[i * size + half + column]! * amplitude[i]!;
      return value;
    });
    // The real part of the exponent moves Re(c z^n) by Re(c n z^n), its imaginary part by Re(j c n z^n).
    for (let k = 0; k < half; k += 2) {
      const [re, im] = [amplitude[k]!, amplitude[k + 1]!];
      slope[k]! += re * rest[k]! + im * rest[k + 1]!;
      slope[k + 1]! += -im * rest[k]! + re * rest[k + 1]!;
      for (let l = 0; l < half; l += 2) {
        const [otherRe, otherIm] = [amplitude[l]!, amplitude[l + 1]!];
        const a = outside[k * half + l]!;
        const b = outside[k * half + l + 1]!;
        const c = outside[(k + 1) * half + l]!;
        const d = outside[(k + 1) * half + l + 1]!;
        const upRe = a * otherRe + b * otherIm;
        const downRe = c * otherRe + d * otherIm;
        const upIm = -a * otherIm + b * otherRe;
        const downIm = -c * otherIm + d * otherRe;
        information[k * half + l]! += re * upRe + im * downRe;
        information[k * half + l + 1]! += re * upIm + im * downIm;
        information[(k + 1) * half + l]! += -im * upRe + re * downRe;
        information[(k + 1) * half + l + 1]! += -im * upIm + re * downIm;
      }
    }
  }
  return { slope, information };
}

function stepFrom({ fit, slope }: Solved, damping: number): { by: Float64Array; promised: number } | null {
  const size = slope.length;
  const damped = fit.information.slice();
  for (let i = 0; i < size; i++) damped[i * size + i]! *= 1 + damping;
  const factor = cholesky(damped, size);
  if (factor === null) return null;
  const by = backSolved(factor, forwardSolved(factor, slope));
  return { by, promised: by.reduce((sum, value, i) => sum + value * slope[i]!, 0) };
}

function movedBy(poles: readonly Pole[], by: Float64Array, rateHz: number): Pole[] | null {
  const moved = poles.map((pole, k) => {
    const frequencyHz = pole.frequencyHz + (by[2 * k + 1]! * rateHz) / (2 * Math.PI);
    const decay = pole.decay - by[2 * k]! * rateHz;
    return { frequencyHz, decay: Math.min(decay, (Math.PI * frequencyHz) / LEAST_Q) };
  });
  const isAllowed = moved.every(
    ({ frequencyHz, decay }) => frequencyHz > LOWEST_HZ && frequencyHz < HIGHEST_HZ && decay > LEAST_DECAY,
  );
  return isAllowed ? moved : null;
}

function block(matrix: Float64Array, size: number, row: number, column: number, count: number): Float64Array {
  const out = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const start = (row + i) * size + column;
    out.set(matrix.subarray(start, start + count), i * count);
  }
  return out;
}
