import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** A phase that goes round at a rate which may wander: the turn of the wheel, or a line that keeps time with it. */
export interface TurnPath {
  readonly meanRateHz: number;
  /** Radians at each step. */
  readonly phase: Float64Array;
  /** What the phase is ahead of the mean rate, in radians, at knots `KNOT_SECONDS` apart. */
  readonly knots: Float64Array;
}

/** The rate is taken as even for this long: it wanders over seconds. */
export const KNOT_SECONDS = 0.5;

export function knotCount(stepCount: number, stepSeconds: number): number {
  return Math.max(2, Math.ceil((stepCount * stepSeconds) / KNOT_SECONDS) + 1);
}

/** The path with these knots; their own slope goes into the mean rate, and the middle one is taken as 0. */
export function turnPath(
  meanRateHz: number,
  given: Float64Array,
  stepCount: number,
  stepSeconds: number,
): TurnPath {
  const middle = given.length >> 1;
  const slope = (given[given.length - 1] - given[0]) / (given.length - 1);
  const knots = given.map((value, j) => value - given[middle] - slope * (j - middle));
  const rateHz = meanRateHz + slope / KNOT_SECONDS / (2 * Math.PI);
  const rows = new KernelRows(ScratchUser.wheel, 2, Math.max(knots.length, stepCount));
  rows.put(0, knots);
  // biome-ignore format: arguments of a kernel
  kernels().functions.pathPhase(rows.place(0), knots.length, KNOT_SECONDS, rateHz, middle * KNOT_SECONDS, stepSeconds, stepCount, rows.place(1));
  const phase = rows.copy(1, stepCount);
  return { meanRateHz: rateHz, phase, knots };
}

/** Standard deviation of the rate along a path, as a share of it. */
export function rateSpreadOf({ knots, meanRateHz }: TurnPath): number {
  let squares = 0;
  for (let j = 1; j < knots.length; j++) squares += ((knots[j] - knots[j - 1]) / KNOT_SECONDS) ** 2;
  return Math.sqrt(squares / (knots.length - 1)) / (2 * Math.PI * meanRateHz);
}
