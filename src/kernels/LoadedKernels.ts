import type { SampleKernels } from "./SampleKernels.js";
import type { ScratchUser } from "./ScratchUser.js";
import type { SeriesKernels } from "./SeriesKernels.js";
import type { StringKernels } from "./StringKernels.js";

/** All kernels. */
export interface KernelFunctions extends StringKernels, SampleKernels, SeriesKernels {}

/** The kernels and the memory that they work in. */
export interface LoadedKernels {
  readonly functions: KernelFunctions;
  /** The memory as it is now: to be asked for anew after an allocation, which may move it. */
  readonly u8: Uint8Array;
  readonly f32: Float32Array;
  readonly f64: Float64Array;
  /** Memory for good, in steps of 16 bytes: for tables that are made once. */
  allocate(byteCount: number): number;
  /** Memory of one user until that user asks for it the next time; nothing is promised of what is in it. */
  scratch(byteCount: number, user: ScratchUser): number;
}
