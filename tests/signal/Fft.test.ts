import fc from "fast-check";
import FftJs from "fft.js";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { Fft } from "../../src/signal/Fft.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** The definition itself: X(k) = sum x(n) exp(-2 pi j k n / N). Complex arrays are interleaved. */
function directTransform(values: Float64Array): Float64Array {
  const size = values.length / 2;
  const out = new Float64Array(2 * size);
  for (let k = 0; k < size; k++) {
    for (let n = 0; n < size; n++) {
      const angle = (-2 * Math.PI * ((k * n) % size)) / size;
      out[2 * k] += values[2 * n] * Math.cos(angle) - values[2 * n + 1] * Math.sin(angle);
      out[2 * k + 1] += values[2 * n] * Math.sin(angle) + values[2 * n + 1] * Math.cos(angle);
    }
  }
  return out;
}

function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>, length: number): number {
  let largest = 0;
  for (let i = 0; i < length; i++) largest = Math.max(largest, Math.abs(a[i] - b[i]));
  return largest;
}

const noise = (length: number, seed: number) => {
  const random = new SeededRandom(seed);
  return Float64Array.from({ length }, () => random.normal());
};

// Double rounding of sums of up to 512 values near 1: some 1e-13.
const ROUNDING = 1e-11;

// Both shapes of size, 4^n and 2 * 4^n, take different paths through a radix-4 transform.
describe.each([2, 4, 8, 16, 32, 64, 128, 512])("Fft of %i points", (size) => {
  it("gives what the definition of the discrete Fourier transform gives", () => {
    const values = noise(2 * size, size);
    const out = new Float64Array(2 * size);
    new Fft(size).forward(out, values);
    expect(largestDifference(out, directTransform(values), 2 * size)).toBeLessThan(ROUNDING);
  });

  it("gives bins 0 to size/2 of real values", () => {
    const values = noise(size, size + 1);
    const complex = Float64Array.from({ length: 2 * size }, (_, i) => (i % 2 === 0 ? values[i / 2] : 0));
    const out = new Float64Array(2 * size);
    new Fft(size).real(out, values);
    expect(largestDifference(out, directTransform(complex), size + 2)).toBeLessThan(ROUNDING);
  });
});

// Independent of the kernels: the fft.js package. 2 ** 20 complex values go beyond what the kernels take.
describe.each([1024, 2048, 2 ** 15, 2 ** 20])("Fft of %i points against the fft.js package", (size) => {
  const values = noise(2 * size, size);
  const reference = new FftJs(size);
  // Rounding grows with the root of the number of steps; the largest of the results is some 5 times the root of the size.
  const tolerance = 1e-14 * Math.sqrt(size) * Math.log2(size);

  it("transforms, and back", () => {
    const expected = new Float64Array(2 * size);
    reference.transform(expected, values);
    const out = new Float64Array(2 * size);
    new Fft(size).forward(out, values);
    expect(largestDifference(out, expected, 2 * size)).toBeLessThan(tolerance);
    new Fft(size).inverse(out, expected);
    expect(largestDifference(out, values, 2 * size)).toBeLessThan(tolerance);
  });

  it("transforms real values", () => {
    const complex = Float64Array.from({ length: 2 * size }, (_, i) => (i % 2 === 0 ? values[i / 2] : 0));
    const expected = new Float64Array(2 * size);
    reference.transform(expected, complex);
    const out = new Float64Array(size + 2);
    new Fft(size).real(out, values.subarray(0, size));
    expect(largestDifference(out, expected, size + 2)).toBeLessThan(tolerance);
  });
});

describe("Fft", () => {
  it("inverse undoes forward, and Parseval's theorem holds", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 11 }), fc.integer(), (exponent, seed) => {
        const size = 2 ** exponent;
        const fft = new Fft(size);
        const values = noise(2 * size, seed);
        const spectrum = new Float64Array(2 * size);
        const back = new Float64Array(2 * size);
        fft.forward(spectrum, values);
        fft.inverse(back, spectrum);
        expect(largestDifference(back, values, 2 * size)).toBeLessThan(ROUNDING);
        const energy = (all: Float64Array) => all.reduce((sum, value) => sum + value * value, 0);
        expect(energy(spectrum) / size / energy(values)).toBeCloseTo(1, 10); // rounding, as above
      }),
      { numRuns: 30 },
    );
  });

  it.each([0, 1, 3, 1000, 2.5, -8, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 25])(
    "refuses %d points",
    (size) => {
      try {
        new Fft(size);
        expect.unreachable();
      } catch (error) {
        expect(error).toBeInstanceOf(AnalysisError);
        expect((error as AnalysisError).code).toBe("value-out-of-range");
        expect((error as AnalysisError<"value-out-of-range">).details.given).toBe(size);
      }
    },
  );
});
