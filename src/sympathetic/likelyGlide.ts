import { strongest } from "./DampedMode.js";
import { fitPartial, type PartialFit } from "./fitPartial.js";
import type { PitchGlide } from "./PitchGlide.js";
import { alongGlide, type PartialFrames } from "./partialFrames.js";

const CENT = Math.LN2 / 1200;
/** Likely size of a glide, as a standard deviation: 6 cents. */
export const LIKELY_RISE = 6 * CENT;
/** And of the logarithm of its fade. */
export const LIKELY_FADE_SPREAD = 0.3;
/** Tension goes as the square of the swing, so a glide fades about twice as fast as the string (Legge & Fletcher 1984). */
const FADES = [1.5, 2, 2.7];
const RISES_CENTS = [0, 1.5, 3, 4.5, 6, 8, 10, 12];
const STEPS = 4;
const SLOWEST_FADE = 1;

/**
 * The glide that one decaying sine a partial goes best along: far from the right one, a partial turns by several radians too much,
 * and no step from there finds it.
 *
 * @returns with twice the negative logarithm of its likelihood
 */
export function likelyGlide(
  partials: readonly { readonly number: number; readonly fit: PartialFit; readonly frames: PartialFrames }[],
  reachHz: number,
): { readonly glide: PitchGlide; readonly cost: number } {
  const decays = partials
    .filter(({ number }) => number <= 2)
    .map(({ fit }) => strongest(fit.modes).decayPerSecond);
  const decay = Math.max(SLOWEST_FADE / 2, Math.min(...decays, 60));
  let best = { glide: { rise: 0, fadePerSecond: 2 * decay }, cost: Number.POSITIVE_INFINITY };
  for (const factor of FADES) {
    let starts = partials.map(({ fit }) => [strongest(fit.modes)]);
    for (const cents of RISES_CENTS) {
      const glide = { rise: cents * CENT, fadePerSecond: factor * decay };
      const fits = partials.map(({ frames }, k) =>
        fitPartial(alongGlide(frames, glide), starts[k], [], reachHz, STEPS),
      );
      starts = fits.map((fit, k) => (fit === null ? starts[k] : [...fit.modes]));
      const cost = fits.reduce(
        (sum, fit) =>
          sum + (fit === null ? 0 : 1.5 * fit.frameCount * Math.log(fit.restPower / fit.frameCount)),
        (glide.rise / LIKELY_RISE) ** 2,
      );
      if (cost < best.cost) best = { glide, cost };
    }
  }
  return best;
}
