/** Means are taken over this long before and after each moment, with a gap for the rise itself. */
const AFTER_SECONDS = 0.024;
const BEFORE_SECONDS = 0.024;
const GAP_SECONDS = 0.01;

/** By how much the level after each moment stands above that before it; 0 where `isHeard` is 0 anywhere near. */
export function riseCourse(levelDb: Float64Array, hopSeconds: number, isHeard: Uint8Array): Float64Array {
  const after = Math.round(AFTER_SECONDS / hopSeconds);
  const before = Math.round(BEFORE_SECONDS / hopSeconds);
  const gap = Math.round(GAP_SECONDS / hopSeconds);
  const sums = new Float64Array(levelDb.length + 1);
  for (let m = 0; m < levelDb.length; m++) sums[m + 1] = sums[m] + levelDb[m];
  const rise = new Float64Array(levelDb.length);
  for (let m = before + gap; m + after <= levelDb.length; m++) {
    if (isHeard[m - gap - before] === 0 || isHeard[m + after - 1] === 0 || isHeard[m] === 0) continue;
    rise[m] = (sums[m + after] - sums[m]) / after - (sums[m - gap] - sums[m - gap - before]) / before;
  }
  return rise;
}
