import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";

const FRAME_SECONDS = 0.04;
const HOP_SECONDS = 0.004;
/** Frames this far apart, to either side, are compared: they share no sample. */
const APART_FRAMES = 5;
const LOWEST_HZ = 90;
const HIGHEST_HZ = 2900;
/** What rises must grow by more than this to count as new: beats and noise do less within 40 ms. */
const RISE_FACTOR = 1.4;
/** Share of the amplitude after it that is new. */
const LEAST_SHARE = 0.13;
/** A bin counts from here on, in times the noise; by chance one of 140 does. */
const OVER_NOISE = 2.5;
/** What is new must come to so many times the noise of one bin. */
const LEAST_FRESH = 12;
const LEAST_DISTANCE_SECONDS = 0.2;

/**
 * Moments at which something begins to sound: where the amplitude spectrum after is larger than that before, over the strings that
 * ring on (spectral flux, as in Bello et al. 2005, between frames that don't overlap).
 *
 * @returns seconds, ascending
 */
export function findOnsets(samples: Float32Array, sampleRateHz: number): number[] {
  const size = 2 * Math.round((FRAME_SECONDS * sampleRateHz) / 2);
  const hop = Math.round(HOP_SECONDS * sampleRateHz);
  const fftSize = nextPowerOfTwo(size);
  const fft = sharedFft(fftSize);
  const window = hannWindow(size);
  const [from, to] = [LOWEST_HZ, HIGHEST_HZ].map((hz) => Math.round((hz * fftSize) / sampleRateHz));
  const bins = to - from + 1;
  const count = Math.floor((samples.length - size) / hop) + 1;
  if (count < 2 * APART_FRAMES + 1) return [];
  const spectra: Float32Array[] = [];
  const totals = new Float64Array(count);
  const buffer = new Float64Array(fftSize);
  const out = new Float64Array(2 * fftSize);
  for (let m = 0; m < count; m++) {
    for (let i = 0; i < size; i++) buffer[i] = window[i] * samples[m * hop + i];
    fft.real(out, buffer);
    const amplitudes = new Float32Array(bins);
    for (let b = 0; b < bins; b++) {
      amplitudes[b] = Math.hypot(out[2 * (from + b)], out[2 * (from + b) + 1]);
      totals[m] += amplitudes[b];
    }
    spectra.push(amplitudes);
  }
  const shares = new Float64Array(count);
  const floor = quietSpectrum(spectra, totals);
  const floorMean = floor.reduce((sum, value) => sum + value / bins, 0);
  for (let m = 0; m < count; m++) {
    const before = spectra[Math.max(0, m - APART_FRAMES)];
    const after = spectra[Math.min(count - 1, m + APART_FRAMES)];
    let fresh = 0;
    let total = 0;
    for (let b = 0; b < bins; b++) {
      const heard = Math.max(0, after[b] - OVER_NOISE * floor[b]);
      if (heard === 0) continue;
      const had = Math.max(before[b], before[Math.max(0, b - 1)], before[Math.min(bins - 1, b + 1)]);
      total += heard;
      fresh += Math.max(0, heard - RISE_FACTOR * had);
    }
    shares[m] = fresh > LEAST_FRESH * floorMean ? fresh / total : 0;
  }
  const least = Math.round(LEAST_DISTANCE_SECONDS / HOP_SECONDS);
  const onsets: number[] = [];
  const order = Array.from(shares.keys())
    .filter((m) => shares[m] >= LEAST_SHARE)
    .sort((a, b) => shares[b] - shares[a]);
  const taken: number[] = [];
  for (const m of order) {
    if (taken.some((one) => Math.abs(one - m) < least)) continue;
    taken.push(m);
    onsets.push((m * hop + size / 2) / sampleRateHz + steepest(totals, m, count) * HOP_SECONDS);
  }
  return onsets.sort((a, b) => a - b);
}

/** Where about frame m the amplitude rises most, in frames from m. */
function steepest(totals: Float64Array, m: number, count: number): number {
  let best = 0;
  let most = -1;
  for (let k = -APART_FRAMES; k <= APART_FRAMES; k++) {
    const rise = totals[Math.min(count - 1, Math.max(0, m + k + 2))] - totals[Math.max(0, m + k - 2)];
    if (rise <= most) continue;
    most = rise;
    best = k;
  }
  return best;
}

/** The mean spectrum of the quietest twentieth of the frames; no less than what is far below the loudest one. */
function quietSpectrum(spectra: readonly Float32Array[], totals: Float64Array): Float64Array {
  const order = Array.from(totals.keys()).sort((a, b) => totals[a] - totals[b]);
  const quiet = order.slice(0, Math.max(1, Math.floor(order.length / 20)));
  const bins = spectra[0].length;
  const least = (1e-4 * totals[order[order.length - 1]]) / bins;
  return Float64Array.from({ length: bins }, (_, b) =>
    Math.max(
      least,
      quiet.reduce((sum, m) => sum + spectra[m][b] / quiet.length, 0),
    ),
  );
}
