import type { UpperBands } from "./upperBands.js";

/** Rises, in standard deviations, count above this in each band, and together must make so much. */
const BAND_FROM = 1;
const LEAST_TOGETHER = 5;
const CHANCE_FLOOR_DB = 0.3;
const APART_SECONDS = 0.05;

/**
 * Moments at which some of the upper bands rise suddenly, whatever bands they are: the first look, before it is known in which
 * bands this bridge buzzes.
 *
 * @returns frames, in order of time, with the size of what rises there
 */
export function firstRises({ course, riseDb, chanceDb }: UpperBands): { frame: number; size: number }[] {
  const size = new Float64Array(course.count);
  for (const [b, rise] of riseDb.entries()) {
    const chance = Math.hypot(chanceDb[b], CHANCE_FLOOR_DB);
    for (let m = 0; m < size.length; m++) size[m] += Math.max(0, rise[m] / chance - BAND_FROM) ** 2;
  }
  const apart = Math.round(APART_SECONDS / course.hopSeconds);
  const found: { frame: number; size: number }[] = [];
  for (let m = 0; m < size.length; m++) {
    if (size[m] < LEAST_TOGETHER ** 2) continue;
    let isPeak = true;
    for (let j = Math.max(0, m - apart); j < Math.min(size.length, m + apart); j++) {
      if (size[j] > size[m] || (size[j] === size[m] && j < m)) isPeak = false;
    }
    if (isPeak) found.push({ frame: m, size: Math.sqrt(size[m]) });
  }
  return found;
}
