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

/** Starts that are tried, in milliseconds after the onset: the slowest fingertip has left by the first. */
const STARTS_MS = [7, 5, 3.5, 2.5, 1.75];
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
  const starts = STARTS_MS.map((ms) => Math.round((ms * rateHz) / 1000));
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
    const misfits = followsOf(
      tried,
      cut(wanted),
      delays.map((delay, j) => delay - wanted[j]!),
    );
    const isFree = free.map((was, j) => was && misfits[j]!);
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

/** For each tap: whether the part of the window that was won follows the same law as what comes after it. */
function followsOf(fit: PoleFit, data: DecayWindows, won: readonly number[]): boolean[] {
  const rest = restOf(fit, data);
  const after = Math.round(AFTER_SECONDS * data.rateHz);
  return data.windows.map((window, j) => {
    const count = won[j]!;
    if (count === 0) return true;
    const left = power(rest[j]!, 0, count);
    const heard = power(window, 0, count);
    const behind = Math.max(0, power(rest[j]!, count, count + after) - chanceOf(after));
    const share = behind / Math.max(1, power(window, count, count + after));
    return left < Math.max(chanceOf(count), Math.max(LEAST_MISFIT, TIMES_AFTER * share) * heard);
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
