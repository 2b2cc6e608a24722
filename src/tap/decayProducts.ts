import type { DecayWindows } from "./DecayWindows.js";
import { geometricSums } from "./geometricSums.js";
import type { Pole } from "./Pole.js";

/** A vibration smaller than this share of its start is over. */
const OVER = 1e-7;

/** Inner products of the columns of a set of poles, with each other and with the windows. */
export interface DecayProducts {
  /**
   * Gram matrix of 4 columns a pole, row by row. First all vibrations, two columns a pole: Re z^n and -Im z^n; then all
   * their derivatives by the exponent, n Re z^n and -n Im z^n.
   */
  readonly gram: Float64Array;
  /** The same columns with each window. */
  readonly right: readonly Float64Array[];
}

/** The complex factor from sample to sample, z = exp(-decay / rate + 2 pi j f / rate). */
export function stepOf({ frequencyHz, decay }: Pole, rateHz: number): readonly [number, number] {
  const size = Math.exp(-decay / rateHz);
  const angle = (2 * Math.PI * frequencyHz) / rateHz;
  return [size * Math.cos(angle), size * Math.sin(angle)];
}

/** All inner products that a fit of these poles needs: closed forms, and one pass over the samples for each pole and window. */
export function decayProducts(poles: readonly Pole[], { windows, rateHz }: DecayWindows): DecayProducts {
  const count = windows[0]!.length;
  const steps = poles.map((pole) => stepOf(pole, rateHz));
  return {
    gram: gramOf(steps, count),
    right: windows.map((window) => rightOf(steps, window)),
  };
}

function gramOf(steps: readonly (readonly [number, number])[], count: number): Float64Array {
  const half = 2 * steps.length;
  const size = 2 * half;
  const gram = new Float64Array(size * size);
  const product = new Float64Array(6);
  const conjugate = new Float64Array(6);
  const put = (row: number, column: number, value: number) => {
    gram[row * size + column] = value;
    gram[column * size + row] = value;
  };
  for (const [k, [aRe, aIm]] of steps.entries()) {
    for (let l = 0; l <= k; l++) {
      const [bRe, bIm] = steps[l]!;
      geometricSums(aRe * bRe - aIm * bIm, aRe * bIm + aIm * bRe, count, product);
      geometricSums(aRe * bRe + aIm * bIm, aIm * bRe - aRe * bIm, count, conjugate);
      for (const [power, rowFrom, columnFrom] of [
        [0, 0, 0],
        [1, half, 0],
        [1, 0, half],
        [2, half, half],
      ] as const) {
        const [pRe, pIm] = [product[2 * power]!, product[2 * power + 1]!];
        const [cRe, cIm] = [conjugate[2 * power]!, conjugate[2 * power + 1]!];
        const row = rowFrom + 2 * k;
        const column = columnFrom + 2 * l;
        put(row, column, (pRe + cRe) / 2);
        put(row, column + 1, -(pIm - cIm) / 2);
        put(row + 1, column, -(pIm + cIm) / 2);
        put(row + 1, column + 1, (cRe - pRe) / 2);
      }
    }
  }
  return gram;
}

function rightOf(steps: readonly (readonly [number, number])[], window: Float64Array): Float64Array {
  const half = 2 * steps.length;
  const right = new Float64Array(2 * half);
  for (const [k, [zRe, zIm]] of steps.entries()) {
    let [re, im] = [1, 0];
    let [sumRe, sumIm, slopeRe, slopeIm] = [0, 0, 0, 0];
    const end = Math.min(window.length, lastIndex(zRe, zIm));
    for (let n = 0; n < end; n++) {
      const value = window[n]!;
      sumRe += value * re;
      sumIm += value * im;
      slopeRe += value * n * re;
      slopeIm += value * n * im;
      const next = re * zRe - im * zIm;
      im = re * zIm + im * zRe;
      re = next;
    }
    right[2 * k] = sumRe;
    right[2 * k + 1] = -sumIm;
    right[half + 2 * k] = slopeRe;
    right[half + 2 * k + 1] = -slopeIm;
  }
  return right;
}

function lastIndex(zRe: number, zIm: number): number {
  const logSize = Math.log(Math.hypot(zRe, zIm));
  return logSize >= 0 ? Number.POSITIVE_INFINITY : Math.ceil(Math.log(OVER) / logSize);
}
