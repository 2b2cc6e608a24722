import { disturbedTaps } from "./disturbedTaps.js";
import { findPoles, totalOf } from "./findPoles.js";
import { fitPoles } from "./fitPoles.js";
import { LATEST_START_SECONDS } from "./followBack.js";

/** So many poles say what a body sounds like. */
const FEW_POLES = 12;
const FOLDS = 3;

/**
 * A first look at all taps, late enough for every contact to be over: does each ring with the poles that the others have? Poles
 * found in the tap itself would imitate a second hit in it.
 *
 * @param samples - the whole take, its noise white
 * @param onsets - of the taps, in samples
 * @param length - of the windows, from the onset on
 * @returns which of them something else sounds in; none of a single tap
 */
export function disturbedAtFirst(
  samples: Float64Array,
  rateHz: number,
  onsets: readonly number[],
  length: number,
): readonly boolean[] {
  const delay = Math.round(LATEST_START_SECONDS * rateHz);
  const windows = onsets.map((onset) => samples.slice(onset + delay, onset + length));
  const isDisturbed = onsets.map(() => false);
  const folds = Math.min(FOLDS, onsets.length);
  for (let fold = 0; fold < folds && folds > 1; fold++) {
    const others = { rateHz, windows: windows.filter((_, j) => j % folds !== fold) };
    const own = { rateHz, windows: windows.filter((_, j) => j % folds === fold) };
    const poles = findPoles(others, [], FEW_POLES)?.poles;
    const fit = poles === undefined ? null : fitPoles(poles, own, totalOf(own), 0);
    if (fit === null) continue;
    for (const [i, one] of disturbedTaps(fit, own).isDisturbed.entries()) isDisturbed[i * folds + fold] = one;
  }
  return isDisturbed;
}
