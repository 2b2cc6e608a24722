import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** A series with a straight line added that is 0 at the first value; by a kernel. */
export function withRamp(values: Float64Array, slope: number): Float64Array {
  const rows = new KernelRows(ScratchUser.series, 1, values.length);
  rows.put(0, values);
  kernels().functions.addRamp(rows.place(0), slope, values.length, rows.place(0));
  return rows.copy(0);
}
