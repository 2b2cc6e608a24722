import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** Cosine and sine of each harmonic of a phase in turn. */
export function swingColumns(phase: Float64Array, harmonics: readonly number[]): Float64Array[] {
  const rows = new KernelRows(ScratchUser.wheel, 3, phase.length);
  rows.put(0, phase);
  return harmonics.flatMap((harmonic) => {
    kernels().functions.waves(rows.place(0), harmonic, phase.length, rows.place(1), rows.place(2));
    return [rows.copy(1), rows.copy(2)];
  });
}
