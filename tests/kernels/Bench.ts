import { expect } from "vitest";
import { kernels } from "../../src/kernels/kernels.js";
import { ScratchUser } from "../../src/kernels/ScratchUser.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

export const BYTES = 8;
/** Sums of some hundred values of about 1 in 64 bits, in another order. */
const ROUNDING = 1e-11;

/** A part of the kernels' memory for one test: values put one after another, 16 bytes at a time. */
export class Bench {
  private next: number;

  constructor() {
    this.next = kernels().scratch(1 << 18, ScratchUser.survey);
    kernels().f64.fill(Number.NaN, this.next / BYTES, (this.next + (1 << 18)) / BYTES);
  }

  put(values: Float64Array): number {
    const at = this.room(values.length);
    kernels().f64.set(values, at / BYTES);
    return at;
  }

  put32(values: Float32Array): number {
    const at = this.room(values.length / 2 + 1);
    kernels().f32.set(values, at / 4);
    return at;
  }

  room(length: number): number {
    const at = this.next;
    this.next += Math.ceil(length / 2) * 16;
    return at;
  }
}

export const get = (at: number, length: number) => [...kernels().f64.slice(at / BYTES, at / BYTES + length)];
export const noise = (length: number, seed: number) => {
  const random = new SeededRandom(seed);
  return Float64Array.from({ length }, () => random.normal());
};
export const near = (found: readonly number[], expected: readonly number[], tolerance = ROUNDING) => {
  expect(found.length).toBe(expected.length);
  for (const [i, value] of found.entries()) expect(Math.abs(value - expected[i])).toBeLessThan(tolerance);
};
export const range = (length: number) => Array.from({ length }, (_, i) => i);
