/** Fewer than this many gaps show no pace. */
const LEAST_COMPARED = 2;

/**
 * How unevenly moments follow each other: mean difference of neighbouring gaps as a share of the smaller one, each 1 at most; 1 for fewer
 * than four moments. One moment lost or added in an even row makes two or three of these 1.
 */
export function unevenness(moments: readonly number[]): number {
  const gaps = moments.slice(1).map((one, i) => one - moments[i]);
  const differences = gaps
    .slice(1)
    .map((gap, i) => Math.min(1, Math.abs(gap - gaps[i]) / Math.max(1e-9, Math.min(gap, gaps[i]))));
  if (differences.length < LEAST_COMPARED) return 1;
  return differences.reduce((sum, value) => sum + value, 0) / differences.length;
}
