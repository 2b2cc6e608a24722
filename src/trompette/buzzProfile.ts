import { median } from "../signal/median.js";
import type { firstRises } from "./firstRises.js";
import type { UpperBands } from "./upperBands.js";

/** Weight of each band, and where nothing buzzes, as the first look at the rises shows it. */
export interface BuzzProfile {
  readonly weights: readonly number[];
  readonly timing: readonly number[];
  readonly isQuiet: Uint8Array;
}

const CHANCE_FLOOR_DB = 0.3;
/** A buzz moves this much in one band by itself, as a share of its power. */
const OWN_SPREAD = 0.5;
const BEFORE_SECONDS = 0.03;
const AFTER_SECONDS = 0.03;
/** Quiet is where less than this share of a usual rise is left. */
const QUIET_SHARE = 0.3;

/**
 * Learns from the rises in which bands the bridge buzzes: each band counts by its mean rise over the variance of chance (the
 * linear discriminant of independent bands, Fisher 1936).
 */
export function buzzProfile(upper: UpperBands, rises: ReturnType<typeof firstRises>): BuzzProfile {
  const { course, levelDb, baselineDb, riseDb, chanceDb } = upper;
  const { hopSeconds, count } = course;
  const large = median(rises.map(({ size }) => size));
  const deciding = rises.filter(({ size }) => size >= large);
  const first = Math.round(0.004 / hopSeconds);
  const last = Math.round(0.026 / hopSeconds);
  const timing = levelDb.map((level, b) => {
    let usual = 0;
    for (const { frame } of deciding) {
      for (let m = frame + first; m < frame + last; m++) {
        const at = Math.min(count - 1, m);
        usual += 10 ** ((level[at] - baselineDb[b][at]) / 10) - 1;
      }
    }
    usual /= Math.max(1, deciding.length * (last - first));
    const chance = 10 ** (Math.hypot(chanceDb[b], CHANCE_FLOOR_DB) / 10) - 1;
    return usual <= 0 ? 0 : usual / (OWN_SPREAD ** 2 * usual ** 2 + chance ** 2);
  });
  const raw = riseDb.map((rise, b) => {
    const mean = deciding.reduce((sum, { frame }) => sum + rise[frame], 0) / Math.max(1, deciding.length);
    return Math.max(0, mean) / (chanceDb[b] ** 2 + CHANCE_FLOOR_DB ** 2);
  });
  const total = raw.reduce((sum, value) => sum + value, 0);
  const weights = raw.map((value) => (total > 0 ? value / total : 1 / raw.length));
  const above = new Float64Array(count);
  for (const [b, level] of levelDb.entries()) {
    for (let m = 0; m < count; m++) above[m] += weights[b] * (level[m] - baselineDb[b][m]);
  }
  const after = Math.round(AFTER_SECONDS / hopSeconds);
  const before = Math.round(BEFORE_SECONDS / hopSeconds);
  const usual = median(deciding.map(({ frame }) => above[Math.min(count - 1, frame + after)]));
  const isQuiet = new Uint8Array(count);
  for (let m = 0; m < count; m++) isQuiet[m] = !(above[m] > QUIET_SHARE * usual) ? 1 : 0;
  for (const { frame } of rises) isQuiet.fill(0, Math.max(0, frame - before), frame + after);
  return { weights, timing, isQuiet };
}
