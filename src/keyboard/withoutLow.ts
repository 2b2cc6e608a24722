import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";

/** Passed from here on, as a share of the lowest note; stopped below the other. */
const PASSED = 0.82;
const STOPPED = 0.72;

/** The sound without what lies below its lowest note: by one transform of the whole, so that no phase is moved. */
export function withoutLow(samples: Float32Array, sampleRateHz: number, lowestHz: number): Float32Array {
  const size = nextPowerOfTwo(samples.length);
  const fft = sharedFft(size);
  const input = new Float64Array(size);
  input.set(samples);
  const spectrum = new Float64Array(2 * size);
  fft.real(spectrum, input);
  const binHz = sampleRateHz / size;
  for (let k = 0; k <= size / 2; k++) {
    const share = (k * binHz) / lowestHz;
    const weight =
      share >= PASSED
        ? 1
        : share <= STOPPED
          ? 0
          : 0.5 - 0.5 * Math.cos((Math.PI * (share - STOPPED)) / (PASSED - STOPPED));
    spectrum[2 * k] *= weight;
    spectrum[2 * k + 1] *= weight;
    if (k === 0 || k === size / 2) continue;
    spectrum[2 * (size - k)] = spectrum[2 * k];
    spectrum[2 * (size - k) + 1] = -spectrum[2 * k + 1];
  }
  const output = new Float64Array(2 * size);
  fft.inverse(output, spectrum);
  return Float32Array.from({ length: samples.length }, (_, i) => output[2 * i]);
}
