import { fourierTables } from "../kernels/fourierTables.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/**
 * Powers |X(k)|^2 of windowed samples at bins 0 to half of the size, added up over any number of windows, by a kernel
 * (`kernels/assembly/tracker.ts`).
 *
 * @example
 * ```ts
 * const powers = new WindowedPower(8, hannWindow(8));
 * powers.add(samples, 0);
 * powers.sums[1]; // |X(1)|^2
 * ```
 */
export class WindowedPower {
  /** What was added up so far. */
  readonly sums: Float64Array;
  private readonly size: number;
  private readonly window: Float64Array;

  /**
   * @param size - of the transform, a power of two, 4 or more
   * @param window - as long, or shorter: zeros follow then
   */
  constructor(size: number, window: Float64Array) {
    this.size = size;
    this.window = window;
    this.sums = new Float64Array(size / 2 + 1);
  }

  /** Adds the samples from `start` on, as many as the window is long. */
  add(samples: Float32Array, start: number): void {
    const { size, window, sums } = this;
    const { factors, turns } = fourierTables(size / 2);
    const room = (2 * (size + 2) + size + (size / 2 + 2)) * VALUE_BYTES + size * samples.BYTES_PER_ELEMENT;
    const values = kernels().scratch(room, ScratchUser.windowedPower);
    const work = values + (size + 2) * VALUE_BYTES;
    const windowAt = work + (size + 2) * VALUE_BYTES;
    const power = windowAt + size * VALUE_BYTES;
    const samplesAt = power + (size / 2 + 2) * VALUE_BYTES;
    const { functions, f32, f64 } = kernels();
    f64.set(window, windowAt / VALUE_BYTES);
    f64.fill(0, windowAt / VALUE_BYTES + window.length, power / VALUE_BYTES);
    f64.set(sums, power / VALUE_BYTES);
    const first = samplesAt / samples.BYTES_PER_ELEMENT;
    const taken = samples.subarray(start, start + window.length);
    f32.set(taken, first);
    f32.fill(0, first + taken.length, first + size);
    // biome-ignore format: arguments of a kernel
    functions.addPower(samplesAt, windowAt, size, values, work, factors, turns, power, 0, size / 2);
    sums.set(f64.subarray(power / VALUE_BYTES, power / VALUE_BYTES + sums.length));
  }
}
