import { median } from "../signal/median.js";

/** A rise and the fall after it, by frames. */
export interface RiseAndFall {
  readonly valley: number;
  readonly peak: number;
  readonly end: number;
}

/** A course has risen, or fallen, once it has moved this far from its last turn. */
const LEAST_STEP_DB = 4;
/** A dip that does not come down near the floor parts two strokes only where it is so deep against the usual rise. */
const NEAR_FLOOR_DB = 4;
const DIP_SHARE = 0.5;
const DEEPEST_NEEDED_DB = 8;

/** Cuts a course into rises and falls, and joins those that a shallow dip has parted. */
export function risesAndFalls(heightDb: Float64Array, floorDb: number): RiseAndFall[] {
  const raw: RiseAndFall[] = [];
  let valley = 0;
  let peak = -1;
  for (let m = 1; m < heightDb.length; m++) {
    if (peak < 0) {
      if (heightDb[m] < heightDb[valley]) valley = m;
      else if (heightDb[m] - heightDb[valley] >= LEAST_STEP_DB) peak = m;
    } else if (heightDb[m] > heightDb[peak]) peak = m;
    else if (heightDb[peak] - heightDb[m] >= LEAST_STEP_DB) {
      raw.push({ valley, peak, end: m });
      valley = m;
      peak = -1;
    }
  }
  if (peak >= 0) raw.push({ valley, peak, end: heightDb.length });
  const step = (one: RiseAndFall) => heightDb[one.peak] - heightDb[one.valley];
  const needed = Math.min(DEEPEST_NEEDED_DB, DIP_SHARE * median(raw.map(step)));
  const joined: RiseAndFall[] = [];
  for (const one of raw) {
    const before = joined.at(-1);
    if (before === undefined || heightDb[one.valley] <= floorDb + NEAR_FLOOR_DB || step(one) >= needed) {
      joined.push(one);
      continue;
    }
    const higher = heightDb[one.peak] > heightDb[before.peak] ? one.peak : before.peak;
    joined[joined.length - 1] = { valley: before.valley, peak: higher, end: one.end };
  }
  return joined;
}
