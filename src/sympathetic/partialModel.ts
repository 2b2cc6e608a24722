import type { DampedMode } from "./DampedMode.js";
import type { PartialFrames } from "./partialFrames.js";

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

/** Neighbouring frames share half their samples: so much wider is a slow estimate than with independent ones (Hann, 1 + 2/6). */
export const FRAME_CORRELATION = 4 / 3;

/** A mode at the frames, the window's answer to it included. */
export function course(
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
export function modeColumns(frames: PartialFrames, mode: DampedMode, isOld = false): Float64Array[] {
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

export function oldColumns(frames: PartialFrames, old: readonly OldMode[]): Float64Array[] {
  return old.flatMap(({ mode }) => modeColumns(frames, { ...mode, re: 1, im: 0 }, true).slice(0, 2));
}

/** What the modes leave of the frames. */
export function restOf(
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

/** What is known of each unknown beforehand: old modes change as far as their spread allows. */
export function priors(modeCount: number, changes: readonly OldMode[], noise: number) {
  const own = Array.from({ length: 4 * modeCount }, () => 0);
  const weight = ({ spread }: OldMode) => noise / Math.max(1e-30, spread * spread);
  return {
    weights: [...own, ...changes.flatMap((one) => [weight(one), weight(one)])],
    known: [...own, ...changes.flatMap(({ re, im }) => [-re, -im])],
  };
}

/** Real and imaginary parts in turn. */
export function interleaved(re: Float64Array, im: Float64Array): Float64Array {
  const both = new Float64Array(2 * re.length);
  for (let m = 0; m < re.length; m++) {
    both[2 * m] = re[m];
    both[2 * m + 1] = im[m];
  }
  return both;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
