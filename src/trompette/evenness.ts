import { median } from "../signal/median.js";
import { spreadInterval } from "../statistics/spreadInterval.js";
import type { Spread } from "./TrompetteReading.js";

/** How the strokes follow each other. */
export interface Evenness {
  /** Null for fewer than three strokes in a row. */
  readonly strokesPerSecond: number | null;
  readonly timingSpreadSeconds: Spread | null;
  readonly missedSeconds: readonly number[];
}

/** Gaps longer than this many usual ones are pauses. */
const PAUSE_TIMES = 3.5;
/** A gap is one stroke longer, or two, where it is this near to so many usual ones. */
const NEAR_SHARE = 0.3;
/** Neighbours count for the timing where both gaps are about the usual one. */
const USUAL_SHARE = 0.4;
/** With a missed stroke in more than this share of the gaps, the strokes are uneven on purpose. */
const MOST_MISSED_SHARE = 0.25;
const LEAST_STROKES = 3;

/** Rate and evenness of strokes by their onsets, in order of time. */
export function evenness(onsets: readonly number[]): Evenness {
  if (onsets.length < LEAST_STROKES) {
    return { strokesPerSecond: null, timingSpreadSeconds: null, missedSeconds: [] };
  }
  const gaps = onsets.slice(1).map((onset, i) => onset - onsets[i]);
  const usual = median(gaps);
  const missed: number[] = [];
  let played = 0;
  let seconds = 0;
  for (const [i, gap] of gaps.entries()) {
    if (gap > PAUSE_TIMES * usual) continue;
    played++;
    seconds += gap;
    const times = Math.round(gap / usual);
    if (times < 2 || Math.abs(gap / usual - times) > NEAR_SHARE) continue;
    for (let k = 1; k < times; k++) missed.push(onsets[i] + (k * gap) / times);
  }
  const isRegular = missed.length <= MOST_MISSED_SHARE * gaps.length;
  // A missed stroke was due all the same: it counts in the pace.
  const due = played + (isRegular ? missed.length : 0);
  return {
    strokesPerSecond: seconds > 0 ? due / seconds : null,
    timingSpreadSeconds: timingSpread(gaps, usual),
    missedSeconds: isRegular ? missed : [],
  };
}

/**
 * Standard deviation of single onsets: each against the middle between its neighbours, which takes a drifting pace out. That
 * deviation has 1 + 1/4 + 1/4 times the variance of an onset.
 */
function timingSpread(gaps: readonly number[], usual: number): Spread | null {
  const isUsual = (gap: number) => Math.abs(gap / usual - 1) < USUAL_SHARE;
  const deviations = gaps.slice(1).flatMap((gap, i) => {
    const before = gaps[i];
    return isUsual(gap) && isUsual(before) ? [(before - gap) / 2] : [];
  });
  if (deviations.length < LEAST_STROKES) return null;
  const meanSquare = deviations.reduce((sum, one) => sum + one * one, 0) / deviations.length;
  const standardDeviation = Math.sqrt(meanSquare / 1.5);
  // Overlapping triples are not independent: about two thirds as many are.
  const interval95 = spreadInterval(
    standardDeviation,
    Math.max(2, Math.round((2 / 3) * deviations.length) + 1),
  );
  return interval95 === null ? null : { standardDeviation, interval95 };
}
