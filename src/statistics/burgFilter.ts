/**
 * The filter that makes a slowly wandering series white: an autoregression by Burg's method (Burg 1975), which is stable
 * whatever the series.
 *
 * @param values - evenly spaced, mean 0
 * @param order - how many past values the next one leans on
 * @returns 1, a1, a2, ... so that values[m] + a1 values[m-1] + ... is white; shorter where the series is exactly predictable
 */
export function burgFilter(values: Float64Array, order: number): Float64Array {
  let filter = Float64Array.of(1);
  const forward = values.slice();
  const backward = values.slice();
  for (let k = 1; k <= order; k++) {
    let cross = 0;
    let power = 0;
    for (let m = k; m < values.length; m++) {
      cross += forward[m] * backward[m - 1];
      power += forward[m] ** 2 + backward[m - 1] ** 2;
    }
    if (!(power > 0)) break;
    const reflection = (-2 * cross) / power;
    for (let m = values.length - 1; m >= k; m--) {
      const before = forward[m];
      forward[m] += reflection * backward[m - 1];
      backward[m] = backward[m - 1] + reflection * before;
    }
    const longer = new Float64Array(k + 1);
    for (let i = 0; i <= k; i++) longer[i] = (filter[i] ?? 0) + reflection * (filter[k - i] ?? 0);
    filter = longer;
  }
  return filter;
}
