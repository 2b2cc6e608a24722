import { averageSpectrum } from "../signal/averageSpectrum.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";

const WINDOW_SECONDS = 0.25;
const STEP_SECONDS = 0.1;
/** What is compared: the mean over this long before and after. */
const SIDE_SECONDS = 1;
const LOWEST_HZ = 45;
const HIGHEST_HZ = 1500;
/** Only places count where one side comes this close to the strongest line. */
const BELOW_TOP_DB = 40;
/**
 * A string that joins on lines of its own changes them by 20 dB and more; one that joins on the lines of others, an octave
 * up, by 3 dB on the mean of all. Beats and the swing of the wheel stay under 2.
 */
const LEAST_CHANGE_DB = 2.3;

/**
 * Times at which strings join or leave: where the spectrum after differs from the one before.
 *
 * @param samples - of one channel after decimation, the first at `firstSeconds`
 * @returns in seconds, rising; good to about a quarter of a second
 */
export function findChanges(samples: Float32Array, sampleRateHz: number, firstSeconds: number): number[] {
  const size = nextPowerOfTwo(WINDOW_SECONDS * sampleRateHz);
  const stepSamples = Math.round(STEP_SECONDS * sampleRateHz);
  const spectra: Float64Array[] = [];
  let binHz = 1;
  for (let start = 0; start + size <= samples.length; start += stepSamples) {
    const spectrum = averageSpectrum(samples.subarray(start, start + size), sampleRateHz, size);
    binHz = spectrum.binHz;
    spectra.push(spectrum.density);
  }
  const side = Math.round(SIDE_SECONDS / STEP_SECONDS);
  const changes = spectra.map((_, i) =>
    i < side || i + side > spectra.length
      ? 0
      : difference(meanOf(spectra.slice(i - side, i)), meanOf(spectra.slice(i, i + side)), binHz),
  );
  const times: number[] = [];
  for (const [i, change] of changes.entries()) {
    const around = changes.slice(Math.max(0, i - side), i + side + 1);
    if (change < LEAST_CHANGE_DB || change < Math.max(...around) || change === changes[i - 1]) continue;
    // Window i begins at i steps; the change lies between the windows before it and those from it on.
    times.push(firstSeconds + i * STEP_SECONDS + size / sampleRateHz / 2 - STEP_SECONDS / 2);
  }
  return times;
}

function meanOf(spectra: readonly Float64Array[]): Float64Array {
  return spectra[0].map((_, k) => spectra.reduce((sum, spectrum) => sum + spectrum[k], 0) / spectra.length);
}

function difference(before: Float64Array, after: Float64Array, binHz: number): number {
  const from = Math.ceil(LOWEST_HZ / binHz);
  const to = Math.min(before.length - 1, Math.floor(HIGHEST_HZ / binHz));
  let top = 0;
  for (let k = from; k <= to; k++) top = Math.max(top, before[k], after[k]);
  const floor = top * 10 ** (-BELOW_TOP_DB / 10);
  let sum = 0;
  let count = 0;
  for (let k = from; k <= to; k++) {
    if (before[k] < floor && after[k] < floor) continue;
    sum += Math.abs(10 * Math.log10(Math.max(after[k], floor) / Math.max(before[k], floor)));
    count++;
  }
  return count === 0 ? 0 : sum / count;
}
