import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

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
  const rows = new KernelRows(ScratchUser.burg, 2, values.length);
  rows.put(0, values);
  rows.put(1, values);
  for (let k = 1; k <= order; k++) {
    const reflection = kernels().functions.reflect(rows.place(0), rows.place(1), values.length, k);
    if (Number.isNaN(reflection)) break;
    const longer = new Float64Array(k + 1);
    for (let i = 0; i <= k; i++) longer[i] = (filter[i] ?? 0) + reflection * (filter[k - i] ?? 0);
    filter = longer;
  }
  return filter;
}
