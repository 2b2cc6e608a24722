import { type DampedMode, strongest } from "./DampedMode.js";
import { glideLead, type PitchGlide } from "./PitchGlide.js";
import type { PartialFrames } from "./partialFrames.js";
import { solveNormal } from "./solveNormal.js";

/** A mode of a string that rang before, near a partial: what it was still taken for, corrected here. */
export interface OldMode {
  /** As subtracted already. */
  readonly mode: DampedMode;
  /** Change of its amplitude so far. */
  readonly re: number;
  readonly im: number;
  /** What such a change is likely to be. */
  readonly spread: number;
}

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

/** What a partial says of a glide, by its rise and by the logarithm of its fade, in units of the noise. */
export interface GlideEvidence {
  /** Products of what is left with what either would change. */
  readonly score: readonly [number, number];
  /** Products of these changes: rise with itself, rise with fade, fade with itself. */
  readonly information: readonly [number, number, number];
  /** Change of the angular frequency of the strongest mode with either. */
  readonly slopes: readonly [number, number];
}

/** Neighbouring frames share half their samples: so much wider is a slow estimate than with independent ones (Hann, 1 + 2/6). */
const FRAME_CORRELATION = 4 / 3;
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

/** What the frames say of a glide besides the one that their partial goes along. */
export function glideEvidence(
  frames: PartialFrames,
  fit: PartialFit,
  { rise, fadePerSecond }: PitchGlide,
): GlideEvidence | null {
  const values = interleaved(frames.re, frames.im);
  const rest = restOf(frames, values, fit.modes, fit.old, fit.old);
  const byRise = new Float64Array(values.length);
  const byFade = new Float64Array(values.length);
  for (const mode of fit.modes) {
    const { re, im } = course(frames, mode);
    for (const [m, t] of frames.times.entries()) {
      const lead = glideLead(fadePerSecond, t);
      const turn = 2 * Math.PI * frames.centreHz * lead;
      const change = 2 * Math.PI * frames.centreHz * rise * (t * Math.exp(-fadePerSecond * t) - lead);
      byRise[2 * m] -= turn * im[m];
      byRise[2 * m + 1] += turn * re[m];
      byFade[2 * m] -= change * im[m];
      byFade[2 * m + 1] += change * re[m];
    }
  }
  const columns = [...fit.modes.flatMap((mode) => modeColumns(frames, mode)), ...oldColumns(frames, fit.old)];
  const { weights } = priors(fit.modes.length, fit.old, fit.noiseVariance);
  const nothing = new Float64Array(columns.length);
  const project = (values: Float64Array) => {
    const solved = solveNormal(columns, values, weights, nothing);
    if (solved === null) return null;
    return { left: without(values, columns, solved.solution), solution: solved.solution };
  };
  const [ofRise, ofFade, ofRest] = [project(byRise), project(byFade), project(rest)];
  if (ofRise === null || ofFade === null || ofRest === null) return null;
  const variance = fit.noiseVariance * FRAME_CORRELATION;
  const product = (a: Float64Array, b: Float64Array) => dot(a, b) / variance;
  const at = 4 * fit.modes.indexOf(strongest(fit.modes)) + 3;
  return {
    score: [product(ofRise.left, ofRest.left), product(ofFade.left, ofRest.left)],
    information: [
      product(ofRise.left, ofRise.left),
      product(ofRise.left, ofFade.left),
      product(ofFade.left, ofFade.left),
    ],
    slopes: [-ofRise.solution[at], -ofFade.solution[at]],
  };
}

/** A mode at the frames, the window's answer to it included. */
function course(
  frames: PartialFrames,
  mode: DampedMode,
  isOld = false,
): { re: Float64Array; im: Float64Array } {
  const omega = 2 * Math.PI * (mode.frequencyHz - frames.centreHz);
  const decay = mode.decayPerSecond;
  // Second moment of a Hann window of length 1: 1/12 - 1 / (2 pi^2).
  const moment = 0.5 * 0.03268 * frames.frameSeconds ** 2;
  const gainRe = 1 + moment * (decay * decay - omega * omega);
  const gainIm = -2 * moment * decay * omega;
  const aRe = mode.re * gainRe - mode.im * gainIm;
  const aIm = mode.re * gainIm + mode.im * gainRe;
  const count = frames.times.length;
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const first = frames.times[0] ?? 0;
  const hop = frames.frameSeconds / 2;
  const size = Math.exp(-decay * first);
  let cos = size * Math.cos(omega * first);
  let sin = size * Math.sin(omega * first);
  // From frame to frame the same turn and the same loss.
  const stepRe = Math.exp(-decay * hop) * Math.cos(omega * hop);
  const stepIm = Math.exp(-decay * hop) * Math.sin(omega * hop);
  for (let m = 0; m < count; m++) {
    re[m] = aRe * cos - aIm * sin;
    im[m] = aRe * sin + aIm * cos;
    const next = cos * stepRe - sin * stepIm;
    sin = cos * stepIm + sin * stepRe;
    cos = next;
  }
  const { turn } = frames;
  if (turn !== null && !isOld) {
    for (let m = 0; m < count; m++) {
      const [x, y] = [re[m], im[m]];
      re[m] = x * turn.re[m] - y * turn.im[m];
      im[m] = x * turn.im[m] + y * turn.re[m];
    }
  }
  return { re, im };
}

/** Derivatives by re, im, decay and angular frequency, real and imaginary parts of the frames in turn. */
function modeColumns(frames: PartialFrames, mode: DampedMode, isOld = false): Float64Array[] {
  const { re, im } = course(frames, { ...mode, re: 1, im: 0 }, isOld);
  const { times } = frames;
  const [byRe, byIm, byDecay, byOmega] = Array.from({ length: 4 }, () => new Float64Array(2 * re.length));
  for (let m = 0; m < re.length; m++) {
    const [x, y, t] = [re[m], im[m], times[m]];
    byRe[2 * m] = x;
    byRe[2 * m + 1] = y;
    byIm[2 * m] = -y;
    byIm[2 * m + 1] = x;
    const wholeRe = t * (mode.re * x - mode.im * y);
    const wholeIm = t * (mode.re * y + mode.im * x);
    byDecay[2 * m] = -wholeRe;
    byDecay[2 * m + 1] = -wholeIm;
    byOmega[2 * m] = -wholeIm;
    byOmega[2 * m + 1] = wholeRe;
  }
  return [byRe, byIm, byDecay, byOmega];
}

function oldColumns(frames: PartialFrames, old: readonly OldMode[]): Float64Array[] {
  return old.flatMap(({ mode }) => modeColumns(frames, { ...mode, re: 1, im: 0 }, true).slice(0, 2));
}

function restOf(
  frames: PartialFrames,
  values: Float64Array,
  modes: readonly DampedMode[],
  changes: readonly OldMode[],
  before: readonly OldMode[],
): Float64Array {
  const rest = values.slice();
  const take = (mode: DampedMode, isOld = false) => {
    const { re, im } = course(frames, mode, isOld);
    for (let m = 0; m < re.length; m++) {
      rest[2 * m] -= re[m];
      rest[2 * m + 1] -= im[m];
    }
  };
  for (const mode of modes) take(mode);
  for (const [k, { mode, re, im }] of changes.entries()) {
    take({ ...mode, re: re - before[k].re, im: im - before[k].im }, true);
  }
  return rest;
}

function priors(modeCount: number, changes: readonly OldMode[], noise: number) {
  const own = Array.from({ length: 4 * modeCount }, () => 0);
  const weight = ({ spread }: OldMode) => noise / Math.max(1e-30, spread * spread);
  return {
    weights: [...own, ...changes.flatMap((one) => [weight(one), weight(one)])],
    known: [...own, ...changes.flatMap(({ re, im }) => [-re, -im])],
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

function without(
  values: Float64Array,
  columns: readonly Float64Array[],
  solution: Float64Array,
): Float64Array {
  return values.map((value, i) => columns.reduce((left, column, k) => left - solution[k] * column[i], value));
}

function interleaved(re: Float64Array, im: Float64Array): Float64Array {
  const both = new Float64Array(2 * re.length);
  for (let m = 0; m < re.length; m++) {
    both[2 * m] = re[m];
    both[2 * m + 1] = im[m];
  }
  return both;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
