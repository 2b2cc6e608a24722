import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { PartialFit } from "./PartialFit.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/**
 * The normal equations of `followUnison`, added up over the partials in the kernels' memory: at every frame, of a phase (in
 * cycles of the fundamental) and a log gain of each string by turns. One at a time: making the next one ends the last.
 */
export class UnisonEquations {
  private readonly frameCount: number;
  /** Frames, filled up to an even number. */
  private readonly count: number;
  private readonly strings: number;
  private readonly at: number;

  constructor(frameCount: number, strings: number) {
    this.frameCount = frameCount;
    this.count = frameCount + (frameCount % 2);
    this.strings = strings;
    const size = 2 * strings;
    const sums = (size * size + size) * this.count;
    const rows = 4 * size;
    this.at = kernels().scratch((sums + rows + size) * VALUE_BYTES, ScratchUser.equations);
    kernels().f64.fill(0, this.at / VALUE_BYTES, this.at / VALUE_BYTES + sums);
  }

  /**
   * Adds what a partial says of the strings.
   *
   * @param fit - its first columns are the strings; its values are what is left of the partial
   * @param left - mean power of that; the equations are weighted with 1 / it
   */
  add(fit: PartialFit, number: number, amplitudes: Float64Array, left: number): void {
    const { strings, count } = this;
    const size = 2 * strings;
    const right = this.at + size * size * count * VALUE_BYTES;
    const rows = right + size * count * VALUE_BYTES;
    const factors = rows + 4 * size * VALUE_BYTES;
    const { functions, f64 } = kernels();
    f64.set(amplitudes.subarray(0, size), factors / VALUE_BYTES);
    const weight = 1 / Math.max(left, 1e-300);
    // biome-ignore format: arguments of a kernel
    functions.addEquations(fit.columns, factors, fit.real, fit.imaginary, strings, 2 * Math.PI * number, weight, count, this.at, right, rows);
  }

  /** Matrix (row by row, below the diagonal and on it) and right side, an array over the frames for each of their cells. */
  read(): { real: Float64Array[]; imaginary: Float64Array[] } {
    const { strings, count, frameCount } = this;
    const size = 2 * strings;
    const { f64 } = kernels();
    const cell = (index: number) => {
      const first = this.at / VALUE_BYTES + index * count;
      return f64.slice(first, first + frameCount);
    };
    return {
      real: Array.from({ length: size * size }, (_, i) => cell(i)),
      imaginary: Array.from({ length: size }, (_, i) => cell(size * size + i)),
    };
  }
}
