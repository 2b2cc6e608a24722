import { kernels } from "./kernels.js";
import type { ScratchUser } from "./ScratchUser.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/** Rows of one length in the kernels' memory, one after another, until the same user asks for the next ones. */
export class KernelRows {
  readonly length: number;
  /** Values from one row to the next: the length, or one more where that is odd, which is 0. */
  readonly stride: number;
  private readonly first: number;

  constructor(user: ScratchUser, rowCount: number, length: number) {
    this.length = length;
    this.stride = length + (length % 2);
    this.first = kernels().scratch(rowCount * this.stride * VALUE_BYTES, user) / VALUE_BYTES;
  }

  /** Where a row lies (a byte offset). */
  place(row: number): number {
    return (this.first + row * this.stride) * VALUE_BYTES;
  }

  /** Copies a row's values into it. */
  put(row: number, values: Float64Array): void {
    const { f64 } = kernels();
    const from = this.first + row * this.stride;
    f64.set(values, from);
    if (this.stride > values.length) f64[from + values.length] = 0;
  }

  fill(row: number, value: number): void {
    const from = this.first + row * this.stride;
    const { f64 } = kernels();
    f64.fill(value, from, from + this.length);
    if (this.stride > this.length) f64[from + this.length] = 0;
  }

  /** A copy of a row, or of its first values. */
  copy(row: number, count: number = this.length): Float64Array {
    const from = this.first + row * this.stride;
    return kernels().f64.slice(from, from + count);
  }

  /** Copies the first values of a row into others, as many as these are. */
  read(row: number, into: Float64Array): void {
    const from = this.first + row * this.stride;
    into.set(kernels().f64.subarray(from, from + into.length));
  }

  /** One value of a row. */
  value(row: number, index: number): number {
    return kernels().f64[this.first + row * this.stride + index];
  }
}
