import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** Adds values times a factor to others of the same number, in their place; by a kernel. */
export function addScaled(sums: Float64Array, values: Float64Array, factor: number): void {
  const rows = new KernelRows(ScratchUser.series, 2, sums.length);
  rows.put(0, sums);
  rows.put(1, values);
  kernels().functions.addScaled(rows.place(1), factor, sums.length, rows.place(0));
  rows.read(0, sums);
}
