import type { DecayWindows } from "./DecayWindows.js";
import { findPoles } from "./findPoles.js";
import type { PoleFit } from "./fitPoles.js";
import { restOf } from "./restOf.js";

/** The vibrations after all taps, and from where on each tap is free ringing. */
export interface FreeRinging {
  readonly fit: PoleFit;
  readonly data: DecayWindows;
  /** Samples from the onset of each tap to its window. */
  readonly delays: readonly number[];
}

/** The slowest fingertip has left by then (contacts of up to 5 ms were tried). */
export const LATEST_START_SECONDS = 0.007;
/** Starts that are tried, after the onset. */
const STARTS_SECONDS = [LATEST_START_SECONDS, 0.005, 0.0035, 0.0025, 0.00175];
/** The misfit of the part that is won is set against that of this stretch after it. */
const AFTER_SECONDS = 0.006;
/** What is left of a part in which the finger still pushes is more than this share of it, and more than so many times that of what follows. */
const LEAST_MISFIT = 10 ** (-50 / 10);
const TIMES_AFTER = 4;

/**
 * Fits what rings freely, as early as each tap allows: while finger or stick still touches, the body is pushed and does not
 * follow the law of decaying vibrations, so what the fit leaves there stands out. High modes are over within a few
 * milliseconds, so each tap is begun as soon as its own contact is over.
 *
 * @param samples - the whole take, its noise white
 * @param onsets - of the taps, in samples
 * @param length - of the windows, from the onset on
 */
export function followBack(
  samples: Float64Array,
  rateHz: number,
  onsets: readonly number[],
  length: number,
): FreeRinging | null {
  const cut = (delays: readonly number[]): DecayWindows => {
    const count = length - Math.max(...delays);
    return {
      rateHz,
      windows: onsets.map((onset, j) => samples.slice(onset + delays[j]!, onset + delays[j]! + count)),
    };
  };
  const starts = STARTS_SECONDS.map((seconds) => Math.round(seconds * rateHz));
  let delays = onsets.map(() => starts[0]!);
  let data = cut(delays);
  let fit = findPoles(data);
  if (fit === null) return null;
  let free = onsets.map(() => true);
  for (const start of starts.slice(1)) {
    const wanted = delays.map((delay, j) => (free[j] ? start : delay));
    if (!free.some(Boolean)) break;
    const tried = findPoles(cut(wanted), fit.poles);
    if (tried === null) break;
    const won = delays.map((delay, j) => delay - wanted[j]!);
    const follows = followsOf(tried, cut(wanted), won, misfitShares(fit, data));
    const isFree = free.map((was, j) => was && follows[j]!);
    const isSame = isFree.every((one, j) => one === free[j]);
    free = isFree;
    if (!free.some(Boolean)) break;
    delays = delays.map((delay, j) => (free[j] ? start : delay));
    data = cut(delays);
    const next: PoleFit | null = isSame ? tried : findPoles(data, fit.poles);
    if (next === null) break;
    fit = next;
  }
  return { fit, data, delays };
}

/** For each tap: what the fit leaves of the beginning of its window beyond noise, as a share of what is heard there. */
function misfitShares(fit: PoleFit, data: DecayWindows): number[] {
  const rest = restOf(fit, data);
  const count = Math.round(AFTER_SECONDS * data.rateHz);
  return data.windows.map(
    (window, j) =>
      Math.max(0, power(rest[j]!, 0, count) - chanceOf(count)) / Math.max(1, power(window, 0, count)),
  );
}

/**
 * For each tap: whether the part of the window that was won follows the same law as what comes after it did.
 *
 * @param shares - misfits of what comes after it, in the fit without that part: a finger still on one tap spoils the fit of all
 */
function followsOf(
  fit: PoleFit,
  data: DecayWindows,
  won: readonly number[],
  shares: readonly number[],
): boolean[] {
  const rest = restOf(fit, data);
  return data.windows.map((window, j) => {
    const count = won[j]!;
    if (count === 0) return true;
    const heard = power(window, 0, count);
    const limit = Math.max(LEAST_MISFIT, TIMES_AFTER * shares[j]!) * heard;
    return power(rest[j]!, 0, count) < Math.max(chanceOf(count), limit);
  });
}

/** What noise of variance 1 seldom exceeds. */
function chanceOf(count: number): number {
  return count + 4 * Math.sqrt(2 * count);
}

function power(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]! ** 2;
  return sum;
}
