import { addScaled } from "./addScaled.js";
import { blackmanHarrisWindow } from "./blackmanHarrisWindow.js";
import { WindowedPower } from "./WindowedPower.js";

/** Main lobe of the window reaches this many bins to either side. */
export const MAIN_LOBE_BINS = 4;

/** Power density over a stretch of sound. */
export interface AverageSpectrum {
  readonly binHz: number;
  /** Density at k * binHz, in power per hertz; a sine of peak amplitude a has power a * a. */
  readonly density: Float64Array;
  /** Equivalent noise bandwidth of the window in hertz: a line of power P stands at P / noiseBandwidthHz. */
  readonly noiseBandwidthHz: number;
  /** How many half-overlapping segments were averaged. */
  readonly segmentCount: number;
}

interface Window {
  readonly window: Float64Array;
  readonly sum: number;
  readonly sumOfSquares: number;
}

let lastWindow: Window | null = null;

/** The one before is kept: most spectra of a take have one length. */
function windowOf(length: number): Window {
  if (lastWindow?.window.length === length) return lastWindow;
  const window = blackmanHarrisWindow(length);
  const sum = window.reduce((total, value) => total + value, 0);
  const sumOfSquares = window.reduce((total, value) => total + value * value, 0);
  lastWindow = { window, sum, sumOfSquares };
  return lastWindow;
}

/**
 * Averaged periodogram (Welch 1967) with the four-term Blackman-Harris window (Harris 1978, side lobes 92 dB down), at
 * half overlap.
 *
 * @param size - segment length, a power of two, 4 or more; a shorter signal is taken as one segment, padded with silence
 */
export function averageSpectrum(samples: Float32Array, sampleRateHz: number, size: number): AverageSpectrum {
  const length = Math.min(size, samples.length);
  const { window, sum, sumOfSquares } = windowOf(length);
  const powers = new WindowedPower(size, window);
  const step = Math.max(1, length >> 1);
  let segmentCount = 0;
  for (let start = 0; length > 0 && start + length <= samples.length; start += step) {
    powers.add(samples, start);
    segmentCount++;
  }
  const scale = segmentCount === 0 ? 0 : 4 / (sampleRateHz * sumOfSquares * segmentCount);
  const density = new Float64Array(powers.sums.length);
  addScaled(density, powers.sums, scale);
  return {
    binHz: sampleRateHz / size,
    density,
    noiseBandwidthHz: (sampleRateHz * sumOfSquares) / (sum * sum),
    segmentCount,
  };
}
