import { median } from "../signal/median.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";
import type { DampedMode } from "./DampedMode.js";

/** The partials of a new sound, roughly. */
export interface Series {
  /** Of the first partial. */
  readonly frequencyHz: number;
  /** Frequency of each partial that was found, by its number. */
  readonly numbersHz: ReadonlyMap<number, number>;
  /** Share of the new sound that these partials hold. */
  readonly share: number;
}

interface Peak {
  readonly hz: number;
  /** Of what is new. */
  readonly amplitude: number;
  /** Power that was there before. */
  readonly had: number;
}

const WINDOW_SECONDS = 0.3;
const LEAST_WINDOW_SECONDS = 0.1;
const LOWEST_HZ = 55;
const HIGHEST_FIRST_HZ = 1500;
const TOP_HZ = 2900;
const MOST_PARTIALS = 12;
/** Peaks count above the noise by so much, and below the strongest by no more. */
const OVER_NOISE = 6;
const UNDER_STRONGEST = 0.004;
const LOBE_BINS = 6;
const LOBE_SHARE = 0.06;
const TOLERANCE = 0.006;
const STIFFEST = 1.5e-3;
const LEAST_NEW = 0.7;
const LEFT_REACH_HZ = 5;
const LEFT_SHARE = 0.12;
const MISSING_PENALTY = 0.45;
const TARGET_BONUS = 0.06;
const TARGET_REACH = 2 ** (60 / 1200);

/**
 * Finds the series of partials that is new after a pluck: peaks of the spectrum after, less what was there before; then the
 * fundamental that explains most of them with fewest of its low partials missing.
 *
 * @param before - the sound up to the pluck, with what is known of earlier strings taken out
 * @param after - the sound from just after it, the same taken out
 * @param ringing - what was taken out of `after`: a share of it is left
 * @param targetsHz - where strings are meant to be; a small advantage only
 * @returns null where nothing with partials is new
 */
export function findSeries(
  before: Float64Array,
  after: Float64Array,
  sampleRateHz: number,
  targetsHz: readonly number[],
  ringing: readonly DampedMode[],
): Series | null {
  const length = Math.min(after.length, Math.round(WINDOW_SECONDS * sampleRateHz));
  if (length < LEAST_WINDOW_SECONDS * sampleRateHz) return null;
  const fftSize = 4 * nextPowerOfTwo(length);
  const spectrum = powers(after.subarray(0, length), fftSize);
  const had = powers(before.subarray(Math.max(0, before.length - length)), fftSize);
  const binHz = sampleRateHz / fftSize;
  const peaks = freshPeaks(spectrum, had, binHz, (LOBE_BINS * sampleRateHz) / length, ringing);
  if (peaks.length === 0) return null;
  const whole = peaks.reduce((sum, { amplitude }) => sum + weight(amplitude), 0);
  let best: { f: number; score: number } | null = null;
  for (const { hz } of peaks) {
    for (let n = 1; n <= 5; n++) {
      const f = hz / n;
      if (f < LOWEST_HZ || f > HIGHEST_FIRST_HZ) continue;
      const numbers = matched(f, 0, TOLERANCE, STIFFEST, peaks);
      const share =
        [...new Set(numbers.values())].reduce((sum, peak) => sum + weight(peak.amplitude), 0) / whole;
      const low = Math.min(4, Math.floor(TOP_HZ / f));
      const missing =
        Array.from({ length: low }, (_, i) => i + 1).filter((one) => !numbers.has(one)).length / low;
      const isNear = targetsHz.some((target) => f < target * TARGET_REACH && f * TARGET_REACH > target);
      const score = share - MISSING_PENALTY * missing + (isNear ? TARGET_BONUS : 0);
      if (best === null || score > best.score) best = { f, score };
    }
  }
  if (best === null) return null;
  const { numbers, firstHz } = refined(best.f, peaks);
  if (numbers.size === 0 || newShare([...numbers.values()]) < LEAST_NEW) return null;
  const share =
    [...numbers.values()].reduce((sum, peak) => sum + peak.amplitude ** 2, 0) /
    peaks.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
  return {
    frequencyHz: numbers.get(1)?.hz ?? firstHz,
    // The first is looked for in any case: weak as it may be, it is the pitch.
    numbersHz: new Map([[1, firstHz], ...[...numbers].map(([n, { hz }]) => [n, hz] as const)]),
    share,
  };
}

/** Partials matched again with the stiffness that the low ones show, so that high ones are not mixed up. */
function refined(first: number, peaks: readonly Peak[]) {
  let f = first;
  let stiffness = 0;
  let numbers = matched(f, 0, TOLERANCE, STIFFEST, peaks, 4);
  for (const most of [6, 9, MOST_PARTIALS]) {
    // f_n^2 / n^2 = f0^2 (1 + B n^2), a straight line over n^2.
    let [s, sx, sy, sxx, sxy] = [0, 0, 0, 0, 0];
    for (const [n, { hz, amplitude }] of numbers) {
      const [x, y, w] = [n * n, (hz / n) ** 2, n * n * amplitude];
      s += w;
      sx += w * x;
      sy += w * y;
      sxx += w * x * x;
      sxy += w * x * y;
    }
    const spread = s * sxx - sx * sx;
    const slope = numbers.size > 2 && spread > 0 ? (s * sxy - sx * sy) / spread : 0;
    const base = s > 0 ? (sy - slope * sx) / s : f * f;
    stiffness = Math.min(STIFFEST, Math.max(0, slope / base));
    f = base > 0 ? Math.sqrt(base) : f;
    numbers = matched(f, stiffness, 0.004, stiffness + 2e-4, peaks, most);
  }
  return { numbers, firstHz: f * Math.sqrt(1 + stiffness) };
}

function matched(
  f: number,
  from: number,
  tolerance: number,
  to: number,
  peaks: readonly Peak[],
  most = MOST_PARTIALS,
): Map<number, Peak> {
  const numbers = new Map<number, Peak>();
  for (let n = 1; n <= most; n++) {
    const low = n * f * Math.sqrt(1 + from * n * n) * (1 - tolerance);
    const high = n * f * Math.sqrt(1 + to * n * n) * (1 + tolerance);
    let best: Peak | null = null;
    for (const peak of peaks) {
      if (peak.hz >= low && peak.hz <= high && peak.amplitude > (best?.amplitude ?? 0)) best = peak;
    }
    if (best !== null) numbers.set(n, best);
  }
  return numbers;
}

/** Weak partials count, but not as many strong ones of what was not quite taken out. */
function weight(amplitude: number): number {
  return amplitude ** 0.75;
}

function powers(samples: Float64Array, fftSize: number): Float64Array {
  const buffer = new Float64Array(fftSize);
  const scale = 4 / Math.max(1, samples.length);
  for (let i = 0; i < samples.length; i++) {
    buffer[i] = samples[i] * scale * (0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / samples.length));
  }
  const out = new Float64Array(2 * fftSize);
  sharedFft(fftSize).real(out, buffer);
  return Float64Array.from({ length: fftSize / 2 }, (_, b) => out[2 * b] ** 2 + out[2 * b + 1] ** 2);
}

/** A bowed sound swells; a pluck is new. */
function newShare(peaks: readonly Peak[]): number {
  const fresh = peaks.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
  return fresh / peaks.reduce((sum, { had }) => sum + had, fresh);
}

/** Power that strings which rang before may leave at a frequency. */
function leftOf(ringing: readonly DampedMode[], hz: number): number {
  const near = ringing.filter(({ frequencyHz }) => Math.abs(frequencyHz - hz) < LEFT_REACH_HZ);
  return near.reduce((sum, { re, im }) => sum + LEFT_SHARE ** 2 * (re * re + im * im), 0);
}

function freshPeaks(
  after: Float64Array,
  before: Float64Array,
  binHz: number,
  lobeHz: number,
  ringing: readonly DampedMode[],
): Peak[] {
  const [first, last] = [Math.ceil(LOWEST_HZ / binHz), Math.floor(TOP_HZ / binHz)];
  const floor = Math.sqrt(median(after.subarray(first, last)));
  const peaks: Peak[] = [];
  for (let b = first; b < last; b++) {
    if (after[b] <= after[b - 1] || after[b] < after[b + 1]) continue;
    const had = Math.max(before[b - 2], before[b - 1], before[b], before[b + 1], before[b + 2]);
    const amplitude = Math.sqrt(Math.max(0, after[b] - 1.5 * had - leftOf(ringing, b * binHz)));
    if (amplitude < OVER_NOISE * floor) continue;
    const [left, mid, right] = [after[b - 1], after[b], after[b + 1]].map((power) => Math.log(power + 1e-30));
    const offset = (left - right) / (2 * (left - 2 * mid + right));
    peaks.push({ hz: (b + offset) * binHz, amplitude, had });
  }
  const most = Math.max(0, ...peaks.map(({ amplitude }) => amplitude));
  // The window's side lobes stand beside strong peaks, 31 dB below them.
  const isLobe = ({ hz, amplitude }: Peak) =>
    peaks.some((one) => Math.abs(one.hz - hz) < lobeHz && amplitude < LOBE_SHARE * one.amplitude);
  return peaks.filter((peak) => peak.amplitude >= UNDER_STRONGEST * most && !isLobe(peak));
}
