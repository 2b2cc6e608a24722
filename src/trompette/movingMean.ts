/** Mean over so many samples around each one, fewer at the ends. */
export function movingMean(values: Float64Array, width: number): Float64Array {
  const half = Math.floor(width / 2);
  const sums = new Float64Array(values.length + 1);
  for (let m = 0; m < values.length; m++) sums[m + 1] = sums[m] + values[m];
  return values.map((_, m) => {
    const from = Math.max(0, m - half);
    const to = Math.min(values.length, m + half + 1);
    return (sums[to] - sums[from]) / (to - from);
  });
}
