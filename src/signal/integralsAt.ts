import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** A running integral, `hopSeconds` from one value to the next, at some times: straight between its values and beyond them; by a kernel. */
export function integralsAt(integral: Float64Array, hopSeconds: number, times: Float64Array): Float64Array {
  const rows = new KernelRows(ScratchUser.series, 3, Math.max(integral.length, times.length));
  rows.put(0, integral);
  rows.put(1, times);
  const { functions } = kernels();
  functions.integralsAt(
    rows.place(0),
    integral.length,
    hopSeconds,
    rows.place(1),
    times.length,
    rows.place(2),
  );
  return rows.copy(2, times.length);
}
