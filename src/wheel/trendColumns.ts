/** Constant, slope and bend over a passage, each about 1 in size. */
export function trendColumns(count: number): Float64Array[] {
  const place = Float64Array.from({ length: count }, (_, m) => (2 * m + 1) / count - 1);
  return [new Float64Array(count).fill(1), place, place.map((value) => 1.5 * value * value - 0.5)];
}
