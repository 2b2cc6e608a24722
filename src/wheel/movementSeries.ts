import { integralsAt } from "../signal/integralsAt.js";
import type { StringMovement } from "../strings/StringMovement.js";

/** Running integrals of a string's pitch (cents) and level (decibels), so that means over any stretch are exact. */
export interface MovementIntegrals {
  readonly hopSeconds: number;
  readonly pitch: Float64Array;
  readonly level: Float64Array;
}

export function movementIntegrals({ hopSeconds, centSeconds, levelDb }: StringMovement): MovementIntegrals {
  const level = new Float64Array(levelDb.length);
  for (let m = 1; m < level.length; m++) {
    level[m] = level[m - 1] + (hopSeconds * (levelDb[m - 1] + levelDb[m])) / 2;
  }
  return { hopSeconds, pitch: centSeconds, level };
}

/** Means over equal steps from the start of the passage. */
export function stepMeans(
  integral: Float64Array,
  hopSeconds: number,
  count: number,
  stepSeconds: number,
): Float64Array {
  const times = Float64Array.from({ length: count + 1 }, (_, i) => i * stepSeconds);
  const values = integralsAt(integral, hopSeconds, times);
  const means = new Float64Array(count);
  for (let i = 0; i < count; i++) means[i] = (values[i + 1] - values[i]) / stepSeconds;
  return means;
}
