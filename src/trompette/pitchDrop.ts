import { leastSquares } from "../statistics/leastSquares.js";
import { meanInterval } from "../statistics/meanInterval.js";
import { sampleSpread } from "../statistics/sampleSpread.js";
import { combinedEstimate, type Estimate } from "./combinedEstimate.js";
import type { FoundStroke } from "./findStrokes.js";
import type { StringCourse } from "./stringCourse.js";
import type { StrokeMean } from "./TrompetteReading.js";

/** What a course says of the pitch with and without buzz, in cents from `referenceHz`. */
export interface PitchDrop {
  readonly silent: StrokeMean | null;
  /** Buzzing less silent. */
  readonly difference: StrokeMean | null;
}

/** The silence beside a stroke that it is held against: short against a turn of the wheel. */
const BESIDE_SECONDS = 0.12;
/** The pitch may follow the buzz this much later; the lag that leaves least is taken. */
const LAGS_SECONDS = [0, 0.004, 0.008, 0.012, 0.016, 0.02, 0.024] as const;
const MASK_STEP_SECONDS = 0.001;
/** Room and string ring on after a stroke. */
const RINGING_SECONDS = 0.06;
const SILENT_SHARE = 0.02;
const BUZZING_SHARE = 0.8;
const UNKNOWN_CENTS = 10;
const SPREAD_STEP_SECONDS = 0.1;
const SILENT_BLOCK_SECONDS = 0.4;
const MOST_BLOCKS = 12;
const LEAST_BLOCKS = 3;
/** A stroke tells something of the difference where buzz and silence share its surroundings at least so evenly. */
const LEAST_INFORMATION = 0.3;
const LEAST_FRAMES = 5;
const CENTS_PER_RATIO = 1200 / Math.LN2;

/**
 * Pitch without buzz, and what the buzz does to it.
 *
 * From an eighth of a second before a stroke to as much after it, cents = a + b t + d s, s being how much of each frame buzzes (frames
 * are longer than the rise of a buzz, so s is smoothed as they are). The swing of the wheel goes into a and b, but for its bend. d is
 * read of each partial by itself: in a lively room the phase of a single partial turns with its frequency, by some angle that is
 * another for each, so that only several tell how sure the difference is. The pitch may follow the buzz a little late; the difference
 * is the mean from onset to end of the strokes.
 */
export function pitchDrop(
  courses: readonly StringCourse[],
  strokes: readonly FoundStroke[],
  referenceHz: number,
): PitchDrop {
  const lagged = LAGS_SECONDS.map((lag) => {
    const shares = courses.map((course) => buzzShares(course, strokes, lag));
    const fits = courses.flatMap((course, c) => localFits(course, course.cents, shares[c], strokes));
    return { shares, squares: fits.reduce((sum, one) => sum + one.squares, 0) };
  });
  const { shares } = lagged.reduce((a, b) => (b.squares < a.squares ? b : a));
  const longer = strokes.map((one) => ({ ...one, endSeconds: one.endSeconds + RINGING_SECONDS }));
  const apart = courses.map((course) => buzzShares(course, longer, 0));
  const numbers = [...new Set(courses.flatMap(({ partials }) => partials.map(({ number }) => number)))];
  const estimates = numbers.flatMap((number): Estimate[] => {
    const fits = courses.flatMap((course, c) => {
      const partial = course.partials.find((one) => one.number === number);
      return partial === undefined ? [] : localFits(course, partial.cents, shares[c], strokes);
    });
    const estimate = partialEstimate(number, fits) ?? overallEstimate(number, courses, shares, apart);
    return estimate === null ? [] : [estimate];
  });
  return {
    silent: silentMean(courses, apart, referenceHz),
    difference: combinedEstimate(estimates, silentSpread(courses, apart)),
  };
}

function middleOf({ grid }: StringCourse, m: number): number {
  return grid.firstSeconds + (m + 0.5) * grid.hopSeconds;
}

/** How much of each frame-to-frame step buzzes, 0 to 1. */
function buzzShares(
  { grid, cents }: StringCourse,
  strokes: readonly FoundStroke[],
  lag: number,
): Float64Array {
  const { firstSeconds, hopSeconds, count } = grid;
  const step = MASK_STEP_SECONDS;
  const start = firstSeconds - 2 * hopSeconds;
  const mask = new Float64Array(Math.ceil(((count + 4) * hopSeconds) / step) + 1);
  for (const { onsetSeconds, endSeconds } of strokes) {
    const from = Math.round((onsetSeconds + lag - start) / step);
    const to = Math.round((endSeconds + lag - start) / step);
    for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) mask[i] = 1;
  }
  const half = Math.round((1.5 * hopSeconds) / step);
  const kernel = Float64Array.from({ length: 2 * half + 1 }, (_, i) =>
    kernelAt(((i - half) * step) / hopSeconds),
  );
  const sum = kernel.reduce((total, value) => total + value, 0);
  return cents.map((_, m) => {
    const centre = Math.round((firstSeconds + (m + 0.5) * hopSeconds - start) / step);
    let share = 0;
    for (let i = -half; i <= half; i++) share += kernel[i + half] * (mask[centre + i] ?? 0);
    return share / sum;
  });
}

/**
 * The phase of a frame is that of the mean over a Hann window of two hops, and a difference of two is smoothed by one hop more:
 * that kernel at so many hops from its middle.
 */
function kernelAt(hops: number): number {
  const integral = (x: number) => {
    const at = Math.min(1, Math.max(-1, x));
    return 0.5 * at + Math.sin(Math.PI * at) / (2 * Math.PI);
  };
  return integral(hops + 0.5) - integral(hops - 0.5);
}

/** What the surroundings of one stroke say. */
interface Local {
  readonly cents: number;
  readonly weight: number;
  /** What the fit leaves. */
  readonly squares: number;
}

function localFits(
  course: StringCourse,
  cents: Float64Array,
  share: Float64Array,
  strokes: readonly FoundStroke[],
): Local[] {
  const { firstSeconds, hopSeconds } = course.grid;
  return strokes.flatMap(({ onsetSeconds, endSeconds }): Local[] => {
    const from = Math.max(0, Math.ceil((onsetSeconds - BESIDE_SECONDS - firstSeconds) / hopSeconds - 0.5));
    const to = Math.min(
      cents.length,
      Math.floor((endSeconds + BESIDE_SECONDS - firstSeconds) / hopSeconds + 0.5),
    );
    if (to - from < LEAST_FRAMES) return [];
    const ones = new Float64Array(to - from).fill(1);
    const times = ones.map((_, i) => (middleOf(course, from + i) - onsetSeconds) / BESIDE_SECONDS);
    const shares = share.subarray(from, to);
    const known = leastSquares([ones, times], shares);
    const fit = leastSquares([ones, times, shares], cents.subarray(from, to));
    if (known === null || fit === null) return [];
    const left = (values: Float64Array, by: (i: number) => number) =>
      values.reduce((sum, value, i) => sum + (value - by(i)) ** 2, 0);
    const weight = left(shares, (i) => known[0] + known[1] * times[i]);
    const squares = left(cents.subarray(from, to), (i) => fit[0] + fit[1] * times[i] + fit[2] * shares[i]);
    const isParted = shares.some((value) => value < SILENT_SHARE) && weight >= LEAST_INFORMATION;
    return !isParted ? [] : [{ cents: fit[2], weight, squares }];
  });
}

/** What one partial says of the difference; its standard error from means over groups of strokes. */
function partialEstimate(number: number, fits: readonly Local[]): Estimate | null {
  const count = Math.min(MOST_BLOCKS, fits.length);
  if (count < 1) return null;
  const blocks = Array.from({ length: count }, (_, block) =>
    meanOf(
      fits.slice(Math.floor((block * fits.length) / count), Math.floor(((block + 1) * fits.length) / count)),
    ),
  );
  const half = meanInterval(blocks)?.halfWidth;
  // A 95 % interval of few blocks is 2.2 to 4.3 standard errors to either side.
  return { number, value: meanOf(fits), standardError: half === undefined ? null : half / 2.2 };
}

/** Where strokes follow each other without silence between: all that buzzes against all that does not. */
function overallEstimate(
  number: number,
  courses: readonly StringCourse[],
  shares: readonly Float64Array[],
  apart: readonly Float64Array[],
): Estimate | null {
  const cents = (isWanted: (c: number, m: number) => boolean) =>
    courses.flatMap(({ partials }, c) =>
      Array.from(partials.find((one) => one.number === number)?.cents ?? []).filter((_, m) => isWanted(c, m)),
    );
  const buzzing = sampleSpread(cents((c, m) => shares[c][m] > BUZZING_SHARE));
  const silent = sampleSpread(cents((c, m) => apart[c][m] < SILENT_SHARE));
  if (buzzing.mean === null || silent.mean === null) return null;
  // Neighbouring frames resemble each other: about one in five is a value of its own.
  const variance = [buzzing, silent].reduce(
    (sum, one) => sum + (5 * (one.standardDeviation ?? UNKNOWN_CENTS) ** 2) / one.count,
    0,
  );
  return { number, value: buzzing.mean - silent.mean, standardError: Math.sqrt(variance) };
}

function meanOf(fits: readonly Local[]): number {
  const total = fits.reduce((sum, { weight }) => sum + weight, 0);
  return fits.reduce((sum, { cents, weight }) => sum + cents * weight, 0) / total;
}

/** How far the string's pitch moves by itself, in means over a tenth of a second, as a standard deviation. */
function silentSpread(courses: readonly StringCourse[], shares: readonly Float64Array[]): number {
  const means = courses.flatMap(({ cents, grid }, c) => {
    const length = Math.max(1, Math.round(SPREAD_STEP_SECONDS / grid.hopSeconds));
    return Array.from({ length: Math.floor(cents.length / length) }, (_, i) => i * length).flatMap(
      (first) => {
        const isSilent = shares[c].subarray(first, first + length).every((share) => share < SILENT_SHARE);
        const part = cents.subarray(first, first + length);
        return isSilent ? [part.reduce((sum, value) => sum + value, 0) / length] : [];
      },
    );
  });
  return sampleSpread(means).standardDeviation ?? 0;
}

function silentMean(
  courses: readonly StringCourse[],
  shares: readonly Float64Array[],
  referenceHz: number,
): StrokeMean | null {
  const silent = courses.flatMap(({ cents, baseHz }, c) => {
    const offset = CENTS_PER_RATIO * Math.log(baseHz / referenceHz);
    return Array.from(cents, (value) => value + offset).filter((_, m) => shares[c][m] < SILENT_SHARE);
  });
  if (silent.length < 2 * LEAST_BLOCKS) return null;
  const mean = silent.reduce((sum, value) => sum + value, 0) / silent.length;
  const seconds = silent.length * courses[0].grid.hopSeconds;
  const count = Math.max(LEAST_BLOCKS, Math.round(seconds / SILENT_BLOCK_SECONDS));
  const blocks = Array.from({ length: count }, (_, block) => {
    const from = Math.floor((block * silent.length) / count);
    const part = silent.slice(from, Math.floor(((block + 1) * silent.length) / count));
    return part.reduce((sum, value) => sum + value, 0) / Math.max(1, part.length);
  });
  const half = meanInterval(blocks)?.halfWidth ?? null;
  return { mean, interval95: half === null ? null : [mean - half, mean + half] };
}
