import type { FineSpan } from "./FineStroke.js";

/** Chances of the highest moment of a period, by its level against the usual knock, in silence and in a buzz. */
export interface PeriodPeaks {
  readonly silence: Float64Array;
  readonly buzz: Float64Array;
}

/** Levels from -23 to +11 dB of the usual knock; what is lower, or nothing, counts as the first. */
const LOWEST_DB = -23;
const STEP_DB = 2;
const COUNT = 18;
/** Before anything is counted each level has this much. */
const BEFOREHAND = 0.5;
/** Shared with each neighbour. */
const SMOOTHING = 0.2;

/** Which of the levels a share of the usual knock's power has. */
export function levelIndex(share: number): number {
  if (!(share > 0)) return 0;
  return Math.max(0, Math.min(COUNT - 1, Math.floor((10 * Math.log10(share) - LOWEST_DB) / STEP_DB) + 1));
}

/** The middle of each level, decibels of the usual knock; the first stands for all below. */
export const LEVELS_DB: readonly number[] = Array.from(
  { length: COUNT },
  (_, j) => LOWEST_DB + (j - 0.5) * STEP_DB,
);

/**
 * How often the highest moment of a period comes to which level, counted over all strokes: in silence, and in the first knocks. That
 * holds how often a knock is left out, too.
 *
 * @param peaks - for each stroke and frame the level of the highest of the period that begins there (see `levelIndex`)
 * @param period - frames of it
 */
export function periodPeaks(
  peaks: readonly Uint8Array[],
  silent: readonly FineSpan[],
  early: readonly FineSpan[],
  period: number,
): PeriodPeaks {
  const counted = (spans: readonly FineSpan[], least: number) => {
    const counts = new Float64Array(COUNT).fill(BEFOREHAND);
    for (const [i, [first, end]] of spans.entries()) {
      const last = Math.max(first + least, end);
      for (let k = first; k + period <= Math.min(last, peaks[i].length); k++) {
        counts[peaks[i][k]] += 1 / period;
      }
    }
    return shares(counts);
  };
  return { silence: counted(silent, 0), buzz: counted(early, period + 1) };
}

function shares(counts: Float64Array): Float64Array {
  const smooth = counts.map(
    (value, j) =>
      (1 - 2 * SMOOTHING) * value + SMOOTHING * ((counts[j - 1] ?? value) + (counts[j + 1] ?? value)),
  );
  const total = smooth.reduce((sum, value) => sum + value, 0);
  return smooth.map((value) => value / total);
}
