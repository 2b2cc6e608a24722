/**
 * The split of a stretch that leaves the least squares about one mean before and one after it, in amplitude; of a gradual rise that
 * is its middle. Every sample of both sides counts, so that a rough plateau does not move it as it moves a threshold.
 *
 * @param power - may go below 0, which counts as 0
 * @returns samples of the course, between the last one before and the first one after
 */
export function stepAt(power: Float64Array, from: number, to: number): number {
  const amplitude = Array.from({ length: to - from }, (_, i) => Math.sqrt(Math.max(0, power[from + i])));
  const count = amplitude.length;
  const total = amplitude.reduce((sum, value) => sum + value, 0);
  let best = { split: 1, gain: Number.NEGATIVE_INFINITY };
  let before = 0;
  for (let split = 1; split < count; split++) {
    before += amplitude[split - 1];
    const low = before / split;
    const high = (total - before) / (count - split);
    const gain = before * low + (total - before) * high;
    if (high > low && gain > best.gain) best = { split, gain };
  }
  return from + best.split - 0.5;
}
