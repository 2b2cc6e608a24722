import FftJs from "fft.js";
import { AnalysisError } from "../errors.js";

interface Engine {
  transform(out: Float64Array, data: Float64Array): void;
  inverseTransform(out: Float64Array, data: Float64Array): void;
  realTransform(out: Float64Array, data: Float64Array): void;
}

/**
 * A fast Fourier transform of one size, on typed arrays (radix-4 by the fft.js package).
 *
 * Complex arrays are interleaved: real part of bin k at 2k, imaginary part at 2k + 1.
 */
export class Fft {
  readonly size: number;
  private readonly engine: Engine;

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
    this.engine = new FftJs(size) as unknown as Engine;
  }

  /** Transforms `size` real values; fills bins 0 to size/2 of `out` (length 2 * size), the rest is left undefined. */
  real(out: Float64Array, values: Float64Array): void {
    this.engine.realTransform(out, values);
  }

  /** Transforms `size` complex values, without scaling. */
  forward(out: Float64Array, values: Float64Array): void {
    this.engine.transform(out, values);
  }

  /** The inverse of {@link Fft.forward}, scaled by 1/size. */
  inverse(out: Float64Array, values: Float64Array): void {
    this.engine.inverseTransform(out, values);
  }
}
