import { leastSquares } from "../statistics/leastSquares.js";
import { meanInterval } from "../statistics/meanInterval.js";
import type { FoundStroke } from "./findStrokes.js";
import type { StringCourse } from "./stringCourse.js";
import type { StrokeMean } from "./TrompetteReading.js";

/** What a course says of the pitch with and without buzz, in cents from `referenceHz`. */
export interface PitchDrop {
  readonly silent: StrokeMean | null;
  /** Buzzing less silent. */
  readonly difference: StrokeMean | null;
}

/** A moment of a course: mean deviation over it, and how much of it buzzes. */
interface Moment {
  readonly seconds: number;
  readonly cents: number;
  readonly share: number;
}

/** The silence beside a stroke that it is held against: short against a turn of the wheel. */
const BESIDE_SECONDS = 0.12;
/** The pitch may follow the buzz this much later. */
const LAGS_SECONDS = [0, 0.004, 0.008, 0.012, 0.016, 0.02] as const;
const MASK_STEP_SECONDS = 0.001;
const SILENT_SHARE = 0.02;
const SILENT_BLOCK_SECONDS = 0.4;
const MOST_BLOCKS = 12;
const LEAST_BLOCKS = 3;
/** A stroke tells something of the difference where buzz and silence share its surroundings at least so evenly. */
const LEAST_INFORMATION = 0.3;
const CENTS_PER_RATIO = 1200 / Math.LN2;

/**
 * Pitch without buzz, and what the buzz does to it.
 *
 * Each stroke is held against the silence beside it: over a quarter of a second around it, cents = a + b t + d s(t), where s is how much of
 * each frame buzzes (the frames are longer than the edges of a stroke, so s is smoothed as they are). The swing of the wheel goes into a
 * and b. The difference is the mean of all d, by how much each is worth; its interval comes from means over groups of strokes.
 */
export function pitchDrop(
  courses: readonly StringCourse[],
  strokes: readonly FoundStroke[],
  referenceHz: number,
): PitchDrop {
  const fits = LAGS_SECONDS.map((lag) => {
    const moments = courses.map((course) => momentsOf(course, strokes, referenceHz, lag));
    return { moments, ...differences(moments, strokes) };
  });
  const best = fits.reduce((a, b) => (b.squares < a.squares ? b : a));
  return { silent: silentMean(best.moments.flat()), difference: weightedMean(best.each) };
}

function momentsOf(
  { grid, cents, baseHz }: StringCourse,
  strokes: readonly FoundStroke[],
  referenceHz: number,
  lag: number,
): Moment[] {
  const { firstSeconds, hopSeconds, count } = grid;
  const offset = CENTS_PER_RATIO * Math.log(baseHz / referenceHz);
  const step = MASK_STEP_SECONDS;
  // Seconds of buzz up to each step, from two hops before the first frame.
  const start = firstSeconds - 2 * hopSeconds;
  const mask = new Float64Array(Math.ceil(((count + 4) * hopSeconds) / step) + 1);
  for (const { onsetSeconds, endSeconds } of strokes) {
    const from = Math.round((onsetSeconds + lag - start) / step);
    const to = Math.round((endSeconds + lag - start) / step);
    for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) mask[i] = 1;
  }
  // The phase of a frame is that of the mean over a Hann window of two hops; a difference of two is smoothed by one hop more.
  const half = Math.round((1.5 * hopSeconds) / step);
  const kernel = Float64Array.from({ length: 2 * half + 1 }, (_, i) =>
    kernelAt(((i - half) * step) / hopSeconds),
  );
  const sum = kernel.reduce((total, value) => total + value, 0);
  return Array.from(cents, (value, m) => {
    const seconds = firstSeconds + (m + 0.5) * hopSeconds;
    const centre = Math.round((seconds - start) / step);
    let share = 0;
    for (let i = -half; i <= half; i++) share += kernel[i + half] * (mask[centre + i] ?? 0);
    return { seconds, cents: value + offset, share: share / sum };
  });
}

/** A Hann window of two hops smoothed over one hop, at so many hops from its middle. */
function kernelAt(hops: number): number {
  const integral = (x: number) => {
    const at = Math.min(1, Math.max(-1, x));
    return 0.5 * at + Math.sin(Math.PI * at) / (2 * Math.PI);
  };
  return integral(hops + 0.5) - integral(hops - 0.5);
}

interface Weighted {
  readonly value: number;
  readonly weight: number;
}

/** The difference that each stroke shows, with what it is worth, and what all of them leave. */
function differences(
  moments: readonly (readonly Moment[])[],
  strokes: readonly FoundStroke[],
): { each: Weighted[]; squares: number } {
  let squares = 0;
  const each = strokes.flatMap(({ onsetSeconds, endSeconds }): Weighted[] => {
    const near = moments
      .map((part) =>
        part.filter(
          ({ seconds }) =>
            seconds > onsetSeconds - BESIDE_SECONDS && seconds < endSeconds + BESIDE_SECONDS,
        ),
      )
      .reduce((a, b) => (b.length > a.length ? b : a), []);
    if (near.length < 5) return [];
    const middle = (onsetSeconds + endSeconds) / 2;
    const ones = new Float64Array(near.length).fill(1);
    const times = Float64Array.from(near, ({ seconds }) => (seconds - middle) / BESIDE_SECONDS);
    const shares = Float64Array.from(near, ({ share }) => share);
    const cents = Float64Array.from(near, (one) => one.cents);
    const known = leastSquares([ones, times], shares);
    const fit = leastSquares([ones, times, shares], cents);
    if (known === null || fit === null) return [];
    const weight = shares.reduce((sum, share, i) => sum + (share - known[0] - known[1] * times[i]) ** 2, 0);
    squares += cents.reduce(
      (sum, value, i) => sum + (value - fit[0] - fit[1] * times[i] - fit[2] * shares[i]) ** 2,
      0,
    );
    return weight < LEAST_INFORMATION ? [] : [{ value: fit[2], weight }];
  });
  return { each, squares };
}

function weightedMean(each: readonly Weighted[]): StrokeMean | null {
  if (each.length === 0) return null;
  const mean = meanOf(each);
  const count = Math.min(MOST_BLOCKS, each.length);
  if (count < LEAST_BLOCKS) return { mean, interval95: null };
  const blocks = Array.from({ length: count }, (_, block) =>
    meanOf(each.slice(Math.floor((block * each.length) / count), Math.floor(((block + 1) * each.length) / count))),
  );
  const half = meanInterval(blocks)?.halfWidth ?? null;
  return { mean, interval95: half === null ? null : [mean - half, mean + half] };
}

function meanOf(each: readonly Weighted[]): number {
  const total = each.reduce((sum, { weight }) => sum + weight, 0);
  return each.reduce((sum, { value, weight }) => sum + value * weight, 0) / total;
}

function silentMean(moments: readonly Moment[]): StrokeMean | null {
  const silent = moments.filter(({ share }) => share < SILENT_SHARE);
  if (silent.length < 2 * LEAST_BLOCKS) return null;
  const mean = silent.reduce((sum, { cents }) => sum + cents, 0) / silent.length;
  const hop = moments.length < 2 ? SILENT_BLOCK_SECONDS : moments[1].seconds - moments[0].seconds;
  const count = Math.max(LEAST_BLOCKS, Math.round((silent.length * hop) / SILENT_BLOCK_SECONDS));
  const blocks = Array.from({ length: count }, (_, block) => {
    const part = silent.slice(
      Math.floor((block * silent.length) / count),
      Math.floor(((block + 1) * silent.length) / count),
    );
    return part.reduce((sum, { cents }) => sum + cents, 0) / Math.max(1, part.length);
  });
  const half = meanInterval(blocks)?.halfWidth ?? null;
  return { mean, interval95: half === null ? null : [mean - half, mean + half] };
}
