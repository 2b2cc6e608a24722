import { KernelRows } from "../../kernels/KernelRows.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { ComplexFrames } from "./ComplexFrames.js";

/** Mean power of complex values. */
export function meanSquare({ real, imaginary }: ComplexFrames): number {
  const rows = new KernelRows(ScratchUser.explaining, 2, real.length);
  rows.put(0, real);
  rows.put(1, imaginary);
  return kernels().functions.energy(rows.place(0), rows.place(1), real.length) / real.length;
}
