import type { DampedMode } from "./DampedMode.js";

/** As wide as two planes come apart, the more the higher the partial; a body's own answer lies further off or dies faster. */
const WIDEST_SPLIT_HZ = 0.8;
const WIDER_BY_HZ = 0.5;
const MOST_DECAY_RATIO = 6;
const LEAST_DECAY = 0.05;
/** Modes that all but cancel are no polarisations. */
const MOST_OVER_SUM = 4;

/** True for two modes that can be one partial of a string, swinging in two planes. */
export function arePolarisations([a, b]: readonly DampedMode[], number: number): boolean {
  const sum = Math.hypot(a.re + b.re, a.im + b.im);
  return (
    Math.abs(a.frequencyHz - b.frequencyHz) < WIDEST_SPLIT_HZ + WIDER_BY_HZ * number &&
    Math.min(a.decayPerSecond, b.decayPerSecond) > LEAST_DECAY &&
    Math.max(a.decayPerSecond / b.decayPerSecond, b.decayPerSecond / a.decayPerSecond) < MOST_DECAY_RATIO &&
    Math.max(Math.hypot(a.re, a.im), Math.hypot(b.re, b.im)) < MOST_OVER_SUM * sum
  );
}
