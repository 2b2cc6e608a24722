import type { DecayWindows } from "./DecayWindows.js";
import type { PoleFit } from "./fitPoles.js";
import { restOf } from "./restOf.js";

/** Most of a tap's energy comes in this time. */
const LOUD_SECONDS = 0.2;
const BLOCK_SECONDS = 0.008;
/** A bounce of the stick comes later than this after the start. */
const FROM_SECONDS = 0.02;
/** What is left after a second hit rises by this much, and is this much of the loudest of the tap. */
const LEAST_RISE = 6;
const LEAST_SHARE = 0.004;
/** A tap of which the common modes explain less than this is none of the kind. */
const LEAST_EXPLAINED = 0.6;

/** Which taps do not ring off in peace, and what share of each the fit explains. */
export interface TapPeace {
  readonly isDisturbed: readonly boolean[];
  /** Share of the energy, noise taken off, 0 to 1. */
  readonly explained: readonly number[];
}

/**
 * Looks at what the fit leaves of each tap: a second hit (the stick bounces, a knock) starts the modes anew, which no
 * free decay does, and stands out as a sudden rise.
 */
export function disturbedTaps(fit: PoleFit, data: DecayWindows): TapPeace {
  const rest = restOf(fit, data).map(smoothed);
  const heard = data.windows.map(smoothed);
  const explained = heard.map((window, j) => {
    const count = Math.min(window.length, Math.round(LOUD_SECONDS * data.rateHz));
    const noise = count * SMOOTHED_NOISE;
    const sound = powerOf(window, 0, count) - noise;
    return sound > 0.1 * noise ? 1 - Math.max(0, powerOf(rest[j]!, 0, count) - noise) / sound : 0;
  });
  const isDisturbed = heard.map(
    (window, j) => explained[j]! < LEAST_EXPLAINED || risesAgain(rest[j]!, window, data.rateHz),
  );
  return { isDisturbed, explained };
}

/** Variance of white noise of variance 1 after {@link smoothed}. */
const SMOOTHED_NOISE = 3 / 8;

/** A binomial mean of three: what lies above the modes' range, and is not fitted, is damped. */
function smoothed(values: Float64Array): Float64Array {
  return values.map((value, i) => (value + ((values[i - 1] ?? 0) + (values[i + 1] ?? 0)) / 2) / 2);
}

function risesAgain(rest: Float64Array, window: Float64Array, rateHz: number): boolean {
  const size = Math.round(BLOCK_SECONDS * rateHz);
  const blocks = Math.floor(window.length / size);
  let loudest = 0;
  for (let b = 0; b < blocks; b++) loudest = Math.max(loudest, powerOf(window, b * size, (b + 1) * size));
  for (let b = Math.ceil(FROM_SECONDS / BLOCK_SECONDS); b < blocks; b++) {
    const now = powerOf(rest, b * size, (b + 1) * size);
    const before = Math.max(powerOf(rest, (b - 2) * size, (b - 1) * size), size * SMOOTHED_NOISE);
    if (now > LEAST_RISE * before && now > LEAST_SHARE * loudest) return true;
  }
  return false;
}

function powerOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = Math.max(0, from); i < to; i++) sum += values[i]! ** 2;
  return sum;
}
