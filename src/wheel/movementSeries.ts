import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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

/** The integral at some times, straight between its points and beyond its last; by a kernel. */
export function integralsAt(integral: Float64Array, hopSeconds: number, times: Float64Array): Float64Array {
  const rows = new KernelRows(ScratchUser.wheel, 3, Math.max(integral.length, times.length));
  rows.put(0, integral);
  rows.put(1, times);
  const { functions } = kernels();
  functions.integralsAt(
    rows.place(0),
    integral.length,
    hopSeconds,
    rows.place(1),
    times.length,
    rows.place(2),
  );
  return rows.copy(2, times.length);
}
