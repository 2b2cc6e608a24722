/** A range wider than this beyond the curve says no more than that; it would press the curve flat. */
const MOST_BEYOND = 15;
const STEPS = [1, 2, 5, 10, 20, 50] as const;
const MOST_LINES = 7;

/**
 * Ends and step of an axis that shows a curve with its band: the axis would else end at the curve.
 *
 * @param points - of each its value, then the ends of its range where it has one
 */
export function bandReach(points: readonly (readonly number[])[]) {
  const values = points.map(([value = 0]) => value);
  const all = points.flat();
  const lowest = Math.min(-1, Math.max(Math.min(...all), Math.min(...values) - MOST_BEYOND));
  const highest = Math.max(1, Math.min(Math.max(...all), Math.max(...values) + MOST_BEYOND));
  const interval = STEPS.find((step) => (highest - lowest) / step <= MOST_LINES) ?? 100;
  return {
    min: interval * Math.floor(lowest / interval),
    max: interval * Math.ceil(highest / interval),
    interval,
  };
}
