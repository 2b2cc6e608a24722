import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { integralsAt } from "../signal/integralsAt.js";
import { tQuantile } from "../statistics/tQuantile.js";
import type { TurnPlace } from "./WheelReading.js";

const PLACES = 24;
const LEAST_TURNS = 3;

/**
 * A movement laid over one turn of the wheel, whatever its shape: the mean at each place over all turns, against the mean of the turn
 * around it, so that slow drift stays out. The interval is that of Student's t over the turns.
 *
 * @param integral - of the movement, `hopSeconds` apart
 * @param phase - of the wheel in radians, at the middle of each step
 * @returns empty for fewer than three whole turns
 */
export function unrolledTurn(
  integral: Float64Array,
  hopSeconds: number,
  phase: Float64Array,
  stepSeconds: number,
): TurnPlace[] {
  const cells = cellMeans(integral, hopSeconds, phase, stepSeconds);
  if (cells === null) return [];
  const { first, means } = cells;
  const perPlace = Array.from({ length: PLACES }, (): number[] => []);
  const around = turnMeans(means);
  for (let i = 0; i < means.length; i++) perPlace[(first + i) % PLACES].push(means[i] - around[i]);
  // All places are passed equally often, or once more: there are two quantiles, and each takes a while to work out.
  const factors = new Map<number, number>();
  const places = perPlace.map((values, p) => {
    const count = values.length;
    const factor = factors.get(count) ?? tQuantile(0.975, count - 1);
    factors.set(count, factor);
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const half = factor * Math.sqrt(squares / (count - 1) / count);
    return { degrees: ((p + 0.5) * 360) / PLACES, mean, half };
  });
  const middle = places.reduce((sum, { mean }) => sum + mean, 0) / PLACES;
  return places.map(({ degrees, mean, half }) => ({
    degrees,
    mean: mean - middle,
    interval95: [mean - middle - half, mean - middle + half],
  }));
}

/** Means over cells of 1/24 turn; `first` is the number of the first, counted from a place 0 on. */
function cellMeans(integral: Float64Array, hopSeconds: number, phase: Float64Array, stepSeconds: number) {
  const cell = (2 * Math.PI) / PLACES;
  const last = phase.length - 1;
  const from = Math.ceil(phase[0] / cell);
  const to = Math.floor(phase[last] / cell);
  if (to - from < LEAST_TURNS * PLACES) return null;
  const rows = new KernelRows(ScratchUser.wheel, 2, Math.max(phase.length, to - from + 1));
  rows.put(0, phase);
  kernels().functions.crossings(rows.place(0), phase.length, cell, from, to, stepSeconds, rows.place(1));
  const edges = rows.copy(1, to - from + 1);
  const gone = integralsAt(integral, hopSeconds, edges);
  const means = new Float64Array(to - from);
  for (let i = 0; i < means.length; i++) means[i] = (gone[i + 1] - gone[i]) / (edges[i + 1] - edges[i]);
  return { first: ((from % PLACES) + PLACES) % PLACES, means };
}

/** For each cell the mean over the turn around it, or over the first or last whole turn; by a kernel. */
function turnMeans(means: Float64Array): Float64Array {
  const rows = new KernelRows(ScratchUser.wheel, 2, means.length);
  rows.put(0, means);
  kernels().functions.turnMeans(rows.place(0), means.length, PLACES, rows.place(1));
  return rows.copy(1);
}
