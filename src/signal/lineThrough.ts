import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** The straight line through an evenly spaced series by least squares. */
export interface Line {
  /** Its change from one value to the next. */
  readonly slope: number;
  /** Variance of the series about it. */
  readonly restVariance: number;
}

/**
 * Fits a straight line to a series, by a kernel.
 *
 * @param values - one or more; the slope of one is 0
 */
export function lineThrough(values: Float64Array): Line {
  const rows = new KernelRows(ScratchUser.series, 2, Math.max(4, values.length));
  rows.put(0, values);
  kernels().functions.lineFit(rows.place(0), values.length, rows.place(1));
  return { slope: rows.value(1, 1), restVariance: rows.value(1, 2) / values.length };
}
