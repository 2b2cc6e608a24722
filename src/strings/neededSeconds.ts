import type { JointFit } from "../partials/joint/JointFit.js";
import { LEAST_CYCLES } from "../partials/joint/leastCycles.js";

/** Partials further apart than this share of their frequency don't meet. */
const NEAR_SHARE = 0.03;
/** Partials up to this number of the higher string are looked at for a meeting. */
const HIGHEST_MEETING = 4;
/** How much longer a passage should be where a string could not be followed. */
export const UNFOLLOWED_FACTOR = 2;

/**
 * How long a take would part a string without partials of its own from the others; null where this one did.
 *
 * Two series whose lowest common partials lie d hertz apart, the highest shared one being the l-th of them, are told apart
 * once l d T reaches 1.5 cycles; at 1 the error is about doubled, at 0.5 about fourfold (simulated).
 *
 * @param seconds - length of the passage
 */
export function neededSeconds(fit: JointFit, fits: readonly JointFit[], seconds: number): number | null {
  if (fit.hasOwnPartials) return null;
  const needed = fits.flatMap((other) => {
    if (other === fit) return [];
    const [low, high] = fit.frequencyHz < other.frequencyHz ? [fit, other] : [other, fit];
    for (let q = 1; q <= HIGHEST_MEETING; q++) {
      const p = Math.round((q * high.frequencyHz) / low.frequencyHz);
      const apartHz = Math.abs(p * low.frequencyHz - q * high.frequencyHz);
      if (apartHz > NEAR_SHARE * q * high.frequencyHz) continue;
      const meetings = Math.max(1, Math.floor(fit.partials.length / (fit === low ? p : q)));
      return [LEAST_CYCLES / Math.max(meetings * apartHz, 1e-6)];
    }
    return [];
  });
  const longest = Math.max(0, ...needed);
  if (longest > seconds) return longest;
  // Not even its movement could be followed: the estimate of how far apart they are is then no good either.
  return fit.followed ? null : UNFOLLOWED_FACTOR * seconds;
}
