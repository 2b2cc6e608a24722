import { hannWindow } from "../signal/hannWindow.js";
import { median } from "../signal/median.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";

/** Long enough to keep the partials of a low drone apart, short against the notes of a scale. */
const WINDOW_SECONDS = 0.25;
const HOPS_IN_WINDOW = 4;
/** A bin may stand this far above its median: beats and the swing of the wheel pass, a note that falls on it does not. */
const LARGEST_RISE = 1.3;

/**
 * What goes on sounding while notes come and go: in every bin of the short-time spectrum no moment may stand far above the
 * median of all of them. Drones pass as they are; a note that fills a bin for a small part of the time is cut down to what
 * the drones have there.
 */
export function heldSound(samples: Float32Array, sampleRateHz: number): Float32Array {
  const size = nextPowerOfTwo(WINDOW_SECONDS * sampleRateHz);
  const hop = size / HOPS_IN_WINDOW;
  const fft = sharedFft(size);
  const window = hannWindow(size);
  const frames = Math.ceil(samples.length / hop) + HOPS_IN_WINDOW;
  const spectra: Float64Array[] = [];
  const input = new Float64Array(size);
  for (let m = 0; m < frames; m++) {
    const first = (m - HOPS_IN_WINDOW + 1) * hop;
    for (let i = 0; i < size; i++) input[i] = window[i] * (samples[first + i] ?? 0);
    const output = new Float64Array(2 * size);
    fft.real(output, input);
    spectra.push(output);
  }
  const sizes = new Float64Array(frames);
  for (let k = 0; k <= size / 2; k++) {
    for (let m = 0; m < frames; m++) {
      const [a, b] = [spectra[m][2 * k], spectra[m][2 * k + 1]];
      sizes[m] = Math.sqrt(a * a + b * b);
    }
    const most = LARGEST_RISE * median(sizes);
    for (let m = 0; m < frames; m++) {
      const scale = sizes[m] > most ? most / sizes[m] : 1;
      spectra[m][2 * k] *= scale;
      spectra[m][2 * k + 1] *= scale;
    }
  }
  const held = new Float32Array(samples.length);
  const output = new Float64Array(2 * size);
  // Hann windows, applied once going in and not coming out, add up to half their number a window.
  const share = 2 / HOPS_IN_WINDOW;
  for (let m = 0; m < frames; m++) {
    const spectrum = spectra[m];
    for (let k = 1; k < size / 2; k++) {
      spectrum[2 * (size - k)] = spectrum[2 * k];
      spectrum[2 * (size - k) + 1] = -spectrum[2 * k + 1];
    }
    fft.inverse(output, spectrum);
    const first = (m - HOPS_IN_WINDOW + 1) * hop;
    for (let i = Math.max(0, -first); i < size && first + i < held.length; i++) {
      held[first + i] += share * output[2 * i];
    }
  }
  return held;
}
