/**
 * Beats per second over an interval of cents from pure, at the lowest common partial.
 *
 * @param ratio - upper to lower, as `3:2`
 * @param lowerHz - frequency of the lower string
 * @returns slowest and fastest; the slowest is 0 where the interval holds zero
 */
export function beatRangePerSecond(
  ratio: string,
  lowerHz: number,
  interval95Cents: readonly [number, number],
): [number, number] {
  const commonPartialHz = Number(ratio.split(":")[0]) * lowerHz;
  const ends = interval95Cents.map((cents) => Math.abs(commonPartialHz * (2 ** (cents / 1200) - 1)));
  const holdsZero = interval95Cents[0] <= 0 && interval95Cents[1] >= 0;
  return [holdsZero ? 0 : Math.min(...ends), Math.max(...ends)];
}
