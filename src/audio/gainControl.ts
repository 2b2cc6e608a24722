import { blockEnergies } from "../signal/blockEnergies.js";
import { median } from "../signal/median.js";
import { powerToDb } from "../units/decibels.js";
import type { PauseSound } from "./readPauses.js";

/** How the noise rises in pauses. */
export interface GainControl {
  /** Median rise of the noise in those pauses in which it rises. */
  readonly riseDb: number;
  /** Median time that the middle 80 % of the rise takes. */
  readonly seconds: number;
  readonly pauseCount: number;
}

const BLOCK_SECONDS = 0.05;
/** A pause shorter than this shows too little of a rise (automatic gains take a second or so; common practice). */
const LEAST_SECONDS = 0.8;
/** What is left after the quietest moment must still be this long. */
const LEAST_RISE_SECONDS = 0.4;
/** A rise below this happens in any room. */
const LEAST_RISE_DB = 6;
/** Share of the variance of the level that a steady rise must explain. */
const LEAST_EXPLAINED = 0.75;
/** ... and where there is only one pause to go by. */
const LEAST_EXPLAINED_ALONE = 0.9;
/** More than this share of the rise in one step is a noise that sets in, not a gain that opens. */
const LARGEST_STEP_SHARE = 0.5;
/** The quietest moment is looked for in this part of the pause. */
const START_PART = 0.6;

/**
 * Looks for automatic gain control: after a note the noise rises as the gain opens.
 *
 * The level is taken every 50 ms after a first difference (which keeps low rumble and hum out of it), from the quietest
 * moment on, and fitted by a rising curve (isotonic regression, Barlow et al. 1972; from memory).
 *
 * @returns `open` where no pause after a note is long enough or holds any noise; null where the noise does not rise
 */
export function gainControl(pauses: readonly PauseSound[], rateHz: number): GainControl | "open" | null {
  const curves = pauses
    .filter((pause) => pause.afterNote && pause.channels[0].length >= LEAST_SECONDS * rateHz)
    .map((pause) => levelsDb(pause.channels, Math.round(BLOCK_SECONDS * rateHz)))
    .filter((levels) => levels.every(Number.isFinite));
  if (curves.length === 0) return "open";
  const least = curves.length === 1 ? LEAST_EXPLAINED_ALONE : LEAST_EXPLAINED;
  const rises = curves.map((levels) => riseOf(levels, least)).filter((rise) => rise !== null);
  if (2 * rises.length <= curves.length) return null;
  return {
    riseDb: median(rises.map((rise) => rise.riseDb)),
    seconds: median(rises.map((rise) => rise.seconds)),
    pauseCount: rises.length,
  };
}

function levelsDb(channels: readonly Float32Array[], blockLength: number): number[] {
  const perChannel = channels.map((channel) => blockEnergies(channel, blockLength, true));
  return [...perChannel[0].map((_, b) => powerToDb(perChannel.reduce((sum, one) => sum + one[b], 0)))];
}

function riseOf(
  levels: readonly number[],
  leastExplained: number,
): { riseDb: number; seconds: number } | null {
  const head = levels.slice(0, Math.ceil(START_PART * levels.length));
  const rest = levels.slice(head.indexOf(Math.min(...head)));
  if (rest.length * BLOCK_SECONDS < LEAST_RISE_SECONDS) return null;
  const fitted = isotonic(rest);
  const bottom = fitted[0];
  const riseDb = fitted[fitted.length - 1] - bottom;
  if (riseDb < LEAST_RISE_DB) return null;
  const mean = rest.reduce((sum, level) => sum + level, 0) / rest.length;
  const total = rest.reduce((sum, level) => sum + (level - mean) ** 2, 0);
  const left = rest.reduce((sum, level, i) => sum + (level - fitted[i]) ** 2, 0);
  if (1 - left / total < leastExplained) return null;
  const largestStep = Math.max(...fitted.slice(1).map((level, i) => level - fitted[i]));
  if (largestStep > LARGEST_STEP_SHARE * riseDb) return null;
  const from = fitted.findIndex((level) => level >= bottom + 0.1 * riseDb);
  const to = fitted.findIndex((level) => level >= bottom + 0.9 * riseDb);
  return { riseDb, seconds: (to - from) * BLOCK_SECONDS };
}

/** The non-falling curve closest to the values (pool adjacent violators). */
function isotonic(values: readonly number[]): number[] {
  const pools: { sum: number; count: number }[] = [];
  for (const value of values) {
    let pool = { sum: value, count: 1 };
    for (let last = pools.at(-1); last !== undefined; last = pools.at(-1)) {
      if (last.sum / last.count < pool.sum / pool.count) break;
      pools.pop();
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count));
}
