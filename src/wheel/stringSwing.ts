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
const CURVE_POINTS = 96;

/** A swing without its turn, and the waves it was read from. */
export interface FittedSwing {
  readonly swing: Omit<Swing, "turn">;
  readonly waves: readonly Wave[];
  readonly isShown: readonly boolean[];
}

/**
 * What of a series comes round with the wheel.
 *
 * @param phase - of the wheel at each step, radians
 * @param main - the wave by which the turn was found
 * @param filter - that makes white what that wave leaves
 */
export function stringSwing(
  values: Float64Array,
  phase: Float64Array,
  main: number,
  filter: Float64Array,
): FittedSwing | null {
  const trend = trendColumns(phase.length);
  const columns = [...trend, ...swingColumns(phase, HARMONICS)];
  const fit = whitenedFit(values, columns, filter, 1);
  if (fit === null) return null;
  const waves = HARMONICS.map((_, h) => waveOf(fit, trend.length + 2 * h));
  const isShown = waves.map(({ probability }, h) =>
    HARMONICS[h] === main ? probability <= MAIN_LEVEL : probability <= OTHER_LEVEL,
  );
  const rate = (phase[phase.length - 1] - phase[0]) / (phase.length - 1) / (2 * Math.PI);
  const restored = HARMONICS.map((harmonic) => 1 / stepResponse(harmonic * rate));
  const factor = tFactor(fit.degreesOfFreedom);
  const kept = fit.coefficients.map((value, c) => (c < trend.length ? 0 : value));
  const rest = restOf(values, columns, kept);
  return {
    waves: waves.map((wave, h) => ({ ...wave, amount: wave.amount * restored[h] })),
    isShown,
    swing: {
      ...(isShown.some((one) => one)
        ? peakOf(fit, trend.length, isShown, restored, factor)
        : missed(waves[HARMONICS.indexOf(main)], restored[HARMONICS.indexOf(main)], factor)),
      harmonics: waves
        .flatMap((wave, h) => (isShown[h] ? [harmonicOf(wave, HARMONICS[h], restored[h], factor)] : []))
        .sort((a, b) => b.amount - a.amount),
      ...leftOver(rest, rate),
    },
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
  trendCount: number,
  isShown: readonly boolean[],
  restored: readonly number[],
  factor: number,
): Pick<Swing, "swing" | "interval95"> {
  const size = coefficients.length;
  const rowAt = (angle: number) => {
    const row = new Float64Array(size);
    for (const [h, harmonic] of HARMONICS.entries()) {
      if (!isShown[h]) continue;
      row[trendCount + 2 * h] = restored[h] * Math.cos(harmonic * angle);
      row[trendCount + 2 * h + 1] = restored[h] * Math.sin(harmonic * angle);
    }
    return row;
  };
  const heightOf = (row: Float64Array) => row.reduce((sum, value, c) => sum + value * coefficients[c], 0);
  let high = rowAt(0);
  let low = high;
  for (let i = 1; i < CURVE_POINTS; i++) {
    const row = rowAt((2 * Math.PI * i) / CURVE_POINTS);
    if (heightOf(row) > heightOf(high)) high = row;
    if (heightOf(row) < heightOf(low)) low = row;
  }
  const half = high.map((value, c) => (value - low[c]) / 2);
  let variance = 0;
  for (let r = 0; r < size; r++) {
    for (let c = 0; c < size; c++) {
      variance += half[r] * half[c] * covariance[Math.max(r, c) * size + Math.min(r, c)];
    }
  }
  const swing = heightOf(half);
  const error = factor * Math.sqrt(Math.max(0, variance));
  return { swing, interval95: [Math.max(0, swing - error), swing + error] };
}

function missed(wave: Wave, restored: number, factor: number): Pick<Swing, "swing" | "interval95"> {
  return { swing: null, interval95: [0, restored * (wave.amount + factor * wave.amountError)] };
}

function harmonicOf(wave: Wave, number: number, restored: number, factor: number): SwingHarmonic {
  const around = 360 / number;
  const cycle = wave.phase / (2 * Math.PI);
  // A rounding below 0 is 0, not a whole cycle.
  const highest = around * Math.max(0, cycle < -1e-9 ? cycle + 1 : cycle);
  const half = (factor * wave.phaseError * around) / (2 * Math.PI);
  const amount = wave.amount * restored;
  const error = factor * wave.amountError * restored;
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
