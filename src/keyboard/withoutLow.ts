import { sharedFft } from "../signal/sharedFft.js";

/** Passed from here on, as a share of the lowest note; stopped below the other. */
const PASSED = 0.82;
const STOPPED = 0.72;

const CHUNK = 2 ** 17;
/** Read beyond both ends of a chunk: the filter has died away there. */
const MARGIN = 2 ** 12;

/** The sound without what lies below its lowest note, phases left as they are: by transforms of half a minute at most. */
export function withoutLow(samples: Float32Array, sampleRateHz: number, lowestHz: number): Float32Array {
  const passed = new Float32Array(samples.length);
  const step = CHUNK - 2 * MARGIN;
  for (let from = 0; from < samples.length; from += step) {
    const chunk = new Float64Array(CHUNK);
    const first = from - MARGIN;
    for (let i = Math.max(0, -first); i < CHUNK && first + i < samples.length; i++)
      chunk[i] = samples[first + i];
    const whole = filtered(chunk, sampleRateHz, lowestHz);
    for (let i = 0; i < step && from + i < passed.length; i++) passed[from + i] = whole[2 * (MARGIN + i)];
  }
  return passed;
}

/** Real and imaginary part in turn. */
function filtered(chunk: Float64Array, sampleRateHz: number, lowestHz: number): Float64Array {
  const size = chunk.length;
  const fft = sharedFft(size);
  const spectrum = new Float64Array(2 * size);
  fft.real(spectrum, chunk);
  const binHz = sampleRateHz / size;
  for (let k = 0; k <= size / 2; k++) {
    const weight = response((k * binHz) / lowestHz);
    spectrum[2 * k] *= weight;
    spectrum[2 * k + 1] *= weight;
    if (k === 0 || k === size / 2) continue;
    spectrum[2 * (size - k)] = spectrum[2 * k];
    spectrum[2 * (size - k) + 1] = -spectrum[2 * k + 1];
  }
  const output = new Float64Array(2 * size);
  fft.inverse(output, spectrum);
  return output;
}

function response(share: number): number {
  if (share >= PASSED) return 1;
  if (share <= STOPPED) return 0;
  return 0.5 - 0.5 * Math.cos((Math.PI * (share - STOPPED)) / (PASSED - STOPPED));
}
