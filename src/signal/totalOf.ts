import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** The sum of values, by a kernel. */
export function totalOf(values: Float64Array): number {
  const rows = new KernelRows(ScratchUser.series, 1, values.length);
  rows.put(0, values);
  return kernels().functions.total(rows.place(0), values.length);
}
