import type { DampedMode } from "./DampedMode.js";
import type { PartialFrames } from "./partialFrames.js";
import {
  dot,
  FRAME_CORRELATION,
  interleaved,
  modeColumns,
  type OldMode,
  oldColumns,
  priors,
  restOf,
} from "./partialModel.js";
import { solveNormal } from "./solveNormal.js";

/** One partial of a pluck: one decaying sine or two that beat. */
export interface PartialFit {
  readonly modes: readonly DampedMode[];
  /** Change of the amplitude of each old mode in all. */
  readonly old: readonly OldMode[];
  /** Variance of the real part of one frame around the fit. */
  readonly noiseVariance: number;
  /** Sum of squares left, and what there was. */
  readonly restPower: number;
  readonly power: number;
  readonly frameCount: number;
  /** Covariance of re, im, decay, angular frequency of each mode in turn. */
  readonly covariance: Float64Array;
}

const MOST_STEPS = 12;
const ENOUGH = 1e-7;
const LIMITS_DECAY: readonly [number, number] = [-3, 120];

/**
 * Fits decaying sines to the frames of a partial by Gauss-Newton (damped where a step does not help). Modes of strings that rang
 * before keep frequency and decay; their amplitude may change as far as their spread allows, since a pluck shakes them too.
 *
 * @returns null where there are too few frames
 */
export function fitPartial(
  frames: PartialFrames,
  start: readonly DampedMode[],
  old: readonly OldMode[],
  reachHz: number,
  mostSteps = MOST_STEPS,
): PartialFit | null {
  const count = frames.re.length;
  if (count < 3 * start.length + 1) return null;
  const values = interleaved(frames.re, frames.im);
  const power = dot(values, values);
  let modes = start;
  let changes = old;
  let rest = restOf(frames, values, modes, changes, old);
  let noise = noiseOf(rest, modes.length);
  let cost = costOf(rest, changes, noise);
  for (let step = 0; step < mostSteps; step++) {
    const columns = [...modes.flatMap((mode) => modeColumns(frames, mode)), ...oldColumns(frames, old)];
    const { weights, known } = priors(modes.length, changes, noise);
    const solved = solveNormal(columns, rest, weights, known);
    if (solved === null) break;
    let share = 1;
    let best: {
      modes: readonly DampedMode[];
      changes: readonly OldMode[];
      rest: Float64Array;
      cost: number;
    } | null = null;
    for (let tries = 0; tries < 5; tries++, share /= 2) {
      const nextModes = modes.map((mode, k) => moved(mode, solved.solution, 4 * k, share, frames, reachHz));
      const nextChanges = changes.map((one, k) => ({
        ...one,
        re: one.re + share * solved.solution[4 * modes.length + 2 * k],
        im: one.im + share * solved.solution[4 * modes.length + 2 * k + 1],
      }));
      const nextRest = restOf(frames, values, nextModes, nextChanges, old);
      const nextCost = costOf(nextRest, nextChanges, noise);
      if (nextCost < cost) {
        best = { modes: nextModes, changes: nextChanges, rest: nextRest, cost: nextCost };
        break;
      }
    }
    if (best === null) break;
    const gain = cost - best.cost;
    ({ modes, changes, rest, cost } = best);
    noise = noiseOf(rest, modes.length);
    cost = costOf(rest, changes, noise);
    if (gain < ENOUGH * cost) break;
  }
  const columns = [...modes.flatMap((mode) => modeColumns(frames, mode)), ...oldColumns(frames, old)];
  const { weights, known } = priors(modes.length, changes, noise);
  const solved = solveNormal(columns, rest, weights, known, true);
  const own = 4 * modes.length;
  const covariance = new Float64Array(own * own).fill(Number.NaN);
  if (solved !== null) {
    for (let row = 0; row < own; row++) {
      for (let column = 0; column < own; column++) {
        covariance[row * own + column] =
          solved.inverse[row * columns.length + column] * noise * FRAME_CORRELATION;
      }
    }
  }
  return {
    modes,
    old: changes,
    noiseVariance: noise,
    restPower: dot(rest, rest),
    power,
    frameCount: count,
    covariance,
  };
}

function costOf(rest: Float64Array, changes: readonly OldMode[], noise: number): number {
  return changes.reduce(
    (sum, { re, im, spread }) => sum + (noise * (re * re + im * im)) / Math.max(1e-30, spread * spread),
    dot(rest, rest),
  );
}

function noiseOf(rest: Float64Array, modeCount: number): number {
  return Math.max(
    1e-24,
    dot(rest, rest) / Math.max(1, rest.length / FRAME_CORRELATION - 4 * modeCount) / FRAME_CORRELATION,
  );
}

function moved(
  mode: DampedMode,
  solution: Float64Array,
  at: number,
  share: number,
  frames: PartialFrames,
  reachHz: number,
): DampedMode {
  const decay = mode.decayPerSecond + share * solution[at + 2];
  const away = mode.frequencyHz + (share * solution[at + 3]) / (2 * Math.PI) - frames.centreHz;
  return {
    re: mode.re + share * solution[at],
    im: mode.im + share * solution[at + 1],
    decayPerSecond: Math.min(LIMITS_DECAY[1], Math.max(LIMITS_DECAY[0], decay)),
    frequencyHz: frames.centreHz + Math.min(reachHz, Math.max(-reachHz, away)),
  };
}
