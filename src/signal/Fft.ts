import FftJs from "fft.js";
import { AnalysisError } from "../errors.js";
import { fourierTables } from "../kernels/fourierTables.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
/** Beyond this size the tables of a kernel would be larger than what they are used for; the package needs fewer. */
const LARGEST_OF_KERNEL = 2 ** 19;

interface Engine {
  transform(out: Float64Array, data: Float64Array): void;
  inverseTransform(out: Float64Array, data: Float64Array): void;
}

/**
 * A fast Fourier transform of one size, on typed arrays.
 *
 * Complex arrays are interleaved: real part of bin k at 2k, imaginary part at 2k + 1. By a kernel of our own
 * (`kernels/assembly/fourier.ts`), in 0.4 of the time of the fft.js package at 2,048 complex values and from the first
 * call on; transforms of more than 524,288 by that package.
 */
export class Fft {
  readonly size: number;
  private packageEngine: Engine | null = null;

  /** @param size - a power of two, 2 to 2^24; anything else throws `value-out-of-range` */
  constructor(size: number) {
    if (!Number.isInteger(Math.log2(size)) || size < 2 || size > 2 ** 24) {
      throw new AnalysisError("value-out-of-range", {
        name: "Fft size (a power of two)",
        given: size,
        allowedMinimum: 2,
        allowedMaximum: 2 ** 24,
      });
    }
    this.size = size;
  }

  /** Transforms `size` real values; fills bins 0 to size/2 of `out`, which is `size` + 2 long or longer. */
  real(out: Float64Array, values: Float64Array): void {
    const { size } = this;
    if (size < 4) {
      out.set([values[0] + values[1], 0, values[0] - values[1], 0]);
      return;
    }
    if (size / 2 > LARGEST_OF_KERNEL) {
      this.realByPackage(out, values);
      return;
    }
    this.byKernel(out, values, size, size + 2, (at, work) => {
      const { factors, turns } = fourierTables(size / 2);
      return kernels().functions.transformReal(at, work, factors, turns, size / 2);
    });
  }

  /** Transforms `size` complex values, without scaling. */
  forward(out: Float64Array, values: Float64Array): void {
    const { size } = this;
    if (size > LARGEST_OF_KERNEL) this.engine().transform(out, values);
    else {
      this.byKernel(out, values, 2 * size, 2 * size, (at, work) =>
        kernels().functions.transform(at, work, fourierTables(size).factors, size),
      );
    }
  }

  /** The inverse of {@link Fft.forward}, scaled by 1/size. */
  inverse(out: Float64Array, values: Float64Array): void {
    const { size } = this;
    if (size > LARGEST_OF_KERNEL) this.engine().inverseTransform(out, values);
    else {
      this.byKernel(out, values, 2 * size, 2 * size, (at, work) =>
        kernels().functions.inverse(at, work, fourierTables(size).factors, size),
      );
    }
  }

  /** Copies `valueCount` values into the kernels' memory and `outCount` of what comes of them out of it. */
  private byKernel(
    out: Float64Array,
    values: Float64Array,
    valueCount: number,
    outCount: number,
    run: (at: number, work: number) => number,
  ): void {
    const at = kernels().scratch(2 * outCount * VALUE_BYTES, ScratchUser.fourier);
    const work = at + outCount * VALUE_BYTES;
    kernels().f64.set(values.length > valueCount ? values.subarray(0, valueCount) : values, at / VALUE_BYTES);
    const result = run(at, work) / VALUE_BYTES;
    out.set(kernels().f64.subarray(result, result + outCount));
  }

  /** Each half of the conjugate symmetry follows from the other: the upper one is left out. */
  private realByPackage(out: Float64Array, values: Float64Array): void {
    const complex = new Float64Array(2 * this.size);
    for (let i = 0; i < this.size; i++) complex[2 * i] = values[i];
    const spectrum = new Float64Array(2 * this.size);
    this.engine().transform(spectrum, complex);
    out.set(spectrum.subarray(0, this.size + 2));
  }

  private engine(): Engine {
    this.packageEngine ??= new FftJs(this.size) as unknown as Engine;
    return this.packageEngine;
  }
}
