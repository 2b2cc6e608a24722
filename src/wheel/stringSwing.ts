import { swingColumns } from "./swingColumns.js";
import { trendColumns } from "./trendColumns.js";
import type { Swing, SwingHarmonic } from "./WheelReading.js";
import { tFactor, type Wave, waveOf } from "./waveOf.js";
import { restOf, type WhitenedFit, whitenedFit } from "./whitenedFit.js";

/** Waves a turn that a swing may be made of. */
export const HARMONICS = [1, 2, 3, 4];
/** The wave whose rate is known from all strings may be told sooner than another one. */
const MAIN_LEVEL = 0.01;
const OTHER_LEVEL = 0.001;
/** Smoothing and a path that is not quite right lessen a swing by up to this share, however clear it is (measured). */
const BEYOND_CHANCE = 0.015;
const CURVE_POINTS = 96;
/** Constant, slope and bend stand before the waves. */
const TREND_COLUMNS = 3;

/** The waves of a series, and which of them are shown. */
export interface SwingWaves {
  readonly waves: readonly Wave[];
  readonly isShown: readonly boolean[];
  readonly fit: WhitenedFit;
  /** What the waves leave, the slow trend still in it. */
  readonly rest: Float64Array;
  /** Turns a step. */
  readonly rate: number;
}

/**
 * Finds what of a series comes round with the wheel.
 *
 * @param phase - of the wheel at each step, radians
 * @param main - the wave by which the turn was found
 * @param filter - that makes white what that wave leaves
 */
export function swingWaves(
  values: Float64Array,
  phase: Float64Array,
  main: number,
  filter: Float64Array,
): SwingWaves | null {
  const trend = trendColumns(phase.length);
  const columns = [...trend, ...swingColumns(phase, HARMONICS)];
  const fit = whitenedFit(values, columns, filter, 1);
  if (fit === null) return null;
  const waves = HARMONICS.map((_, h) => waveOf(fit, TREND_COLUMNS + 2 * h));
  const kept = fit.coefficients.map((value, c) => (c < TREND_COLUMNS ? 0 : value));
  return {
    waves,
    isShown: waves.map(({ probability }, h) =>
      HARMONICS[h] === main ? probability <= MAIN_LEVEL : probability <= OTHER_LEVEL,
    ),
    fit,
    rest: restOf(values, columns, kept),
    rate: (phase[phase.length - 1] - phase[0]) / (phase.length - 1) / (2 * Math.PI),
  };
}

/**
 * The swing that those waves make.
 *
 * @param zero - phase of the wheel at which the turn is taken to begin, radians
 */
export function stringSwing(found: SwingWaves, main: number, zero: number): Omit<Swing, "turn"> {
  const { waves, isShown, fit, rest, rate } = found;
  const restored = HARMONICS.map((harmonic) => 1 / stepResponse(harmonic * rate));
  const factor = tFactor(fit.degreesOfFreedom);
  const index = HARMONICS.indexOf(main);
  return {
    ...(isShown.some((one) => one)
      ? peakOf(fit, isShown, restored, factor)
      : missed(waves[index], restored[index], factor)),
    harmonics: waves
      .flatMap((wave, h) => {
        if (!isShown[h]) return [];
        const number = HARMONICS[h];
        return [harmonicOf({ ...wave, phase: wave.phase - number * zero }, number, restored[h], factor)];
      })
      .sort((one, other) => other.amount - one.amount),
    ...leftOver(rest, rate),
  };
}

/** What a mean over one step leaves of a wave; `cycles` a step. */
function stepResponse(cycles: number): number {
  const angle = Math.PI * cycles;
  return angle === 0 ? 1 : Math.sin(angle) / angle;
}

/** Half of peak to peak of the waves that are shown, with its interval by linear propagation. */
function peakOf(
  { coefficients, covariance }: WhitenedFit,
  isShown: readonly boolean[],
  restored: readonly number[],
  factor: number,
): Pick<Swing, "swing" | "interval95"> {
  const shown = HARMONICS.flatMap((harmonic, h) => (isShown[h] ? [{ harmonic, h }] : []));
  const heightAt = (angle: number) => {
    let height = 0;
    for (const { harmonic, h } of shown) {
      const at = TREND_COLUMNS + 2 * h;
      const cosine = coefficients[at] * Math.cos(harmonic * angle);
      height += restored[h] * (cosine + coefficients[at + 1] * Math.sin(harmonic * angle));
    }
    return height;
  };
  const heights = Float64Array.from({ length: CURVE_POINTS }, (_, i) => heightAt(angleOf(i)));
  let high = 0;
  let low = 0;
  for (let i = 1; i < CURVE_POINTS; i++) {
    if (heights[i] > heights[high]) high = i;
    if (heights[i] < heights[low]) low = i;
  }
  const size = coefficients.length;
  const half = new Float64Array(size);
  for (const { harmonic, h } of shown) {
    const at = TREND_COLUMNS + 2 * h;
    half[at] = (restored[h] / 2) * (Math.cos(harmonic * angleOf(high)) - Math.cos(harmonic * angleOf(low)));
    half[at + 1] =
      (restored[h] / 2) * (Math.sin(harmonic * angleOf(high)) - Math.sin(harmonic * angleOf(low)));
  }
  let variance = 0;
  for (let r = 0; r < size; r++) {
    for (let c = 0; c < size; c++) {
      variance += half[r] * half[c] * covariance[Math.max(r, c) * size + Math.min(r, c)];
    }
  }
  const swing = (heights[high] - heights[low]) / 2;
  const error = Math.hypot(factor * Math.sqrt(Math.max(0, variance)), BEYOND_CHANCE * swing);
  return { swing, interval95: [Math.max(0, swing - error), swing + error] };
}

function angleOf(point: number): number {
  return (2 * Math.PI * point) / CURVE_POINTS;
}

function missed(wave: Wave, restored: number, factor: number): Pick<Swing, "swing" | "interval95"> {
  return { swing: null, interval95: [0, restored * (wave.amount + factor * wave.amountError)] };
}

function harmonicOf(wave: Wave, number: number, restored: number, factor: number): SwingHarmonic {
  const around = 360 / number;
  const cycle = wave.phase / (2 * Math.PI);
  // A rounding below 0 is 0, not a whole cycle.
  const highest = around * Math.max(0, cycle - Math.floor(cycle + 1e-9));
  const half = (factor * wave.phaseError * around) / (2 * Math.PI);
  const amount = wave.amount * restored;
  const error = Math.hypot(factor * wave.amountError * restored, BEYOND_CHANCE * amount);
  return {
    number,
    amount,
    interval95: [Math.max(0, amount - error), amount + error],
    highestDegrees: highest,
    highestInterval95Degrees: [highest - half, highest + half],
  };
}

/** Standard deviations of what is slower than a turn and of what is quicker. */
function leftOver(rest: Float64Array, rate: number): Pick<Swing, "drift" | "jitter"> {
  const length = Math.max(1, Math.min(rest.length, Math.round(1 / rate)));
  const slow: number[] = [];
  const quick: number[] = [];
  let sum = 0;
  for (let m = 0; m < rest.length; m++) {
    sum += rest[m] - (m >= length ? rest[m - length] : 0);
    if (m < length - 1) continue;
    slow.push(sum / length);
    quick.push(rest[m - (length >> 1)] - sum / length);
  }
  return { drift: deviation(slow), jitter: deviation(quick) };
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return values.length < 2 ? 0 : Math.sqrt(squares / (values.length - 1));
}
