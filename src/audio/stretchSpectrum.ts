import { addScaled } from "../signal/addScaled.js";
import { hannWindow } from "../signal/hannWindow.js";
import { median } from "../signal/median.js";
import { totalOf } from "../signal/totalOf.js";
import { WindowedPower } from "../signal/WindowedPower.js";

/** Power spectra of several stretches, averaged; power mean of the channels. */
export interface StretchSpectrum {
  readonly binHz: number;
  readonly windowCount: number;
  /** One-sided power density per hertz of each bin; a full-scale sine has power 0.5. */
  readonly density: Float64Array;
  /** The first part of each stretch and the last, to tell what dies away from what stays. Scales as `density`. */
  readonly early: Float64Array;
  readonly late: Float64Array;
}

/** Window lengths tried, longest first. Two seconds part lines 2 Hz apart: a drone on G2 (98 Hz) from 100 Hz. */
const WINDOW_SECONDS = [2, 1, 0.5, 0.25];
/** The lowest of the bins that make the power of a window: what lies below is drift. */
const POWER_FROM_HZ = 40;

interface WindowSpectrum {
  readonly density: Float64Array;
  readonly power: number;
}

/**
 * Averages Hann-windowed spectra, half overlapping (Welch 1967), over stretches of sound.
 *
 * The window is the longest of about 2, 1, 0.5 and 0.25 s that fits twice or more.
 *
 * @param stretches - for each one array a channel
 * @param mostTimesMedian - windows with more than so many times the median power are left out of `density`
 * @returns null where no stretch is as long as the shortest window
 */
export function stretchSpectrum(
  stretches: readonly (readonly Float32Array[])[],
  rateHz: number,
  mostTimesMedian = Number.POSITIVE_INFINITY,
): StretchSpectrum | null {
  const size = windowSize(
    stretches.map((channels) => channels[0].length),
    rateHz,
  );
  if (size === null) return null;
  const measure = spectrumOf(size, rateHz);
  const all: WindowSpectrum[] = [];
  const early = new Float64Array(size / 2);
  const late = new Float64Array(size / 2);
  for (const channels of stretches) {
    const length = channels[0].length;
    const count = windowCount(length, size);
    // Spread over the whole stretch, so that its end is not left out.
    const hop = count > 1 ? (length - size) / (count - 1) : 0;
    const windows = Array.from({ length: count }, (_, w) => measure(channels, Math.round(w * hop), size));
    all.push(...windows);
    if (count === 1) {
      addTo(early, measure(channels, 0, length >> 1));
      addTo(late, measure(channels, length - (length >> 1), length >> 1));
    } else {
      for (let w = 0; w < count >> 1; w++) {
        addTo(early, windows[w]);
        addTo(late, windows[count - 1 - w]);
      }
    }
  }
  const typical = median(all.map((window) => window.power));
  const kept = all.filter((window) => window.power <= mostTimesMedian * typical);
  const density = new Float64Array(size / 2);
  for (const window of kept) addTo(density, window);
  return {
    binHz: rateHz / size,
    windowCount: kept.length,
    density: density.map((sum) => sum / kept.length),
    early,
    late,
  };
}

function windowSize(lengths: readonly number[], rateHz: number): number | null {
  const sizes = WINDOW_SECONDS.map((seconds) => 2 ** Math.round(Math.log2(seconds * rateHz)));
  const counts = sizes.map((size) => lengths.reduce((sum, length) => sum + windowCount(length, size), 0));
  const twice = counts.findIndex((count) => count >= 2);
  if (twice >= 0) return sizes[twice];
  return counts.at(-1) === 1 ? sizes[sizes.length - 1] : null;
}

function windowCount(length: number, size: number): number {
  return length < size ? 0 : Math.floor((length - size) / (size / 2)) + 1;
}

function addTo(sum: Float64Array, window: WindowSpectrum): void {
  addScaled(sum, window.density, 1);
}

/** A function that measures the first `length` samples from `start`, zero-padded to `size`. */
function spectrumOf(size: number, rateHz: number) {
  let taper = hannWindow(size);
  return (channels: readonly Float32Array[], start: number, length: number): WindowSpectrum => {
    const used = Math.min(length, size);
    if (taper.length !== used) taper = hannWindow(used);
    // Hann: the squares sum to 3/8 of the length; one-sided, so twice.
    const scale = 2 / (rateHz * 0.375 * used * channels.length);
    const powers = new WindowedPower(size, taper);
    for (const channel of channels) powers.add(channel, start);
    const density = new Float64Array(size / 2);
    addScaled(density, powers.sums.subarray(0, size / 2), scale);
    const power = totalOf(density.subarray(Math.ceil((POWER_FROM_HZ * size) / rateHz)));
    return { density, power };
  };
}
