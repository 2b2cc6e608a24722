import { kernels } from "./kernels.js";

/** Copies values into the kernels' memory for good, and says where they lie there (a byte offset): for tables. */
export function keepValues(values: Float64Array): number {
  const start = kernels().allocate(values.byteLength);
  kernels().f64.set(values, start / values.BYTES_PER_ELEMENT);
  return start;
}
