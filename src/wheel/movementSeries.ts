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
  let before = integralAt(integral, hopSeconds, 0);
  return Float64Array.from({ length: count }, (_, i) => {
    const next = integralAt(integral, hopSeconds, (i + 1) * stepSeconds);
    const mean = (next - before) / stepSeconds;
    before = next;
    return mean;
  });
}

/** The integral at a time, straight between its points and beyond its last. */
export function integralAt(integral: Float64Array, hopSeconds: number, seconds: number): number {
  const place = seconds / hopSeconds;
  const index = Math.max(0, Math.min(integral.length - 2, Math.floor(place)));
  return integral[index] + (place - index) * (integral[index + 1] - integral[index]);
}
