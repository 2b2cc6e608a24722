import { type GroupMeans, type Movement, swingingSeries } from "../statistics/swingingSeries.js";
import type { PitchStep } from "./pitchSteps.js";

/** Pitch of every note without the swing of the wheel. */
export interface KeyPitches extends GroupMeans {
  /** Peak (half of peak to peak); null where the notes do as well without one. */
  readonly swingCents: number | null;
  readonly swingRateHz: number | null;
}

const SLOWEST_HZ = 0.5;
const FASTEST_HZ = 5;
const RATE_STEP_HZ = 0.12;
const START = { swingShare: 4, swingSeconds: 4, randomSeconds: 0.06 };
/** So much more likely must the notes be with a swing than without for it to be told (natural logarithm). */
const LEAST_GAIN = 5;
const ROUNDS = 5;

/**
 * Pitch of every note, the swing of the wheel taken out: one swing is fitted to the steps of all notes together with the mean
 * of each, since a note of 0.4 s holds less than a turn. Its rate, how it drifts (no one cranks evenly over a scale) and
 * how the rest moves are those that make the steps most likely (restricted likelihood).
 *
 * @param steps - in order of time
 * @param noteCount - how many notes were played; `note` of the steps counts them
 * @returns null for fewer steps than notes and a few
 */
export function keyPitches(steps: readonly PitchStep[], noteCount: number): KeyPitches | null {
  const seconds = Float64Array.from(steps, (step) => step.seconds);
  const values = Float64Array.from(steps, (step) => step.cents);
  const groups = Int32Array.from(steps, (step) => step.note);
  const read = (movement: Movement) => swingingSeries(seconds, values, groups, noteCount, movement);
  if (steps.length < noteCount + 4) return null;

  const still = better(read, { ...START, rateHz: 1, swingShare: 1e-9 }, ["randomSeconds"]);
  let start: Movement = { ...START, rateHz: SLOWEST_HZ };
  let most = Number.NEGATIVE_INFINITY;
  for (let rateHz = SLOWEST_HZ; rateHz <= FASTEST_HZ; rateHz += RATE_STEP_HZ) {
    const likelihood = read({ ...START, rateHz })?.likelihood ?? Number.NEGATIVE_INFINITY;
    if (likelihood > most) {
      most = likelihood;
      start = { ...START, rateHz };
    }
  }
  const swinging = better(read, start, ["rateHz", "swingShare", "swingSeconds", "randomSeconds"]);
  const withSwing = read(swinging);
  const without = read(still);
  if (withSwing === null || without === null) return none(withSwing ?? without);
  if (withSwing.likelihood - without.likelihood < LEAST_GAIN) return none(without);
  return {
    ...withSwing,
    // A sinusoid of amplitude a has a variance of a^2 / 2.
    swingCents: Math.sqrt(2 * swinging.swingShare * withSwing.variance),
    swingRateHz: swinging.rateHz,
  };

  function none(found: GroupMeans | null): KeyPitches | null {
    return found === null ? null : { ...found, swingCents: null, swingRateHz: null };
  }
}

/** Climbs along one quantity after another, in steps that shrink, within what each may be. */
function better(
  read: (movement: Movement) => GroupMeans | null,
  start: Movement,
  names: readonly (keyof Movement)[],
): Movement {
  const value = (movement: Movement) => read(movement)?.likelihood ?? Number.NEGATIVE_INFINITY;
  let best = start;
  let most = value(start);
  for (let round = 0; round < ROUNDS; round++) {
    for (const name of names) {
      const [lowest, highest, factor] = LIMITS[name];
      const step = factor ** (0.55 ** round);
      for (const way of [step, 1 / step]) {
        for (;;) {
          const tried = { ...best, [name]: Math.min(highest, Math.max(lowest, best[name] * way)) };
          if (tried[name] === best[name]) break;
          const likelihood = value(tried);
          if (likelihood <= most) break;
          most = likelihood;
          best = tried;
        }
      }
    }
  }
  return best;
}

/** Lowest and highest value, and the factor of the first step. */
const LIMITS: Readonly<Record<keyof Movement, readonly [number, number, number]>> = {
  rateHz: [0.4, 6, 1.04],
  swingShare: [1e-4, 1e4, 4],
  swingSeconds: [1, 1000, 4],
  randomSeconds: [0.01, 1, 2],
};
