import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { WindowedPower } from "../signal/WindowedPower.js";

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
  const sums = runningSums(samples, sampleRateHz, size, stepSamples);
  const side = Math.round(SIDE_SECONDS / STEP_SECONDS);
  const count = sums.length - 1;
  const changes = Array.from({ length: count }, (_, i) =>
    i < side || i + side > count ? 0 : difference(sums[i - side], sums[i], sums[i + side]),
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

/** Power spectra of overlapping windows, each added to the sum of all before it; entry 0 is empty. */
function runningSums(samples: Float32Array, sampleRateHz: number, size: number, stepSamples: number) {
  const from = Math.ceil((LOWEST_HZ * size) / sampleRateHz);
  const to = Math.min(size / 2, Math.floor((HIGHEST_HZ * size) / sampleRateHz));
  const powers = new WindowedPower(size, hannWindow(size));
  const sums = [new Float64Array(to - from + 1)];
  for (let start = 0; start + size <= samples.length; start += stepSamples) {
    powers.add(samples, start);
    sums.push(powers.sums.slice(from, to + 1));
  }
  return sums;
}

/** Mean difference in decibels of the spectra between `start` and `middle` and those between `middle` and `end`. */
function difference(start: Float64Array, middle: Float64Array, end: Float64Array): number {
  let top = 0;
  for (let k = 0; k < start.length; k++) top = Math.max(top, middle[k] - start[k], end[k] - middle[k]);
  const floor = top * 10 ** (-BELOW_TOP_DB / 10);
  let sum = 0;
  let count = 0;
  for (let k = 0; k < start.length; k++) {
    const before = middle[k] - start[k];
    const after = end[k] - middle[k];
    if (before < floor && after < floor) continue;
    sum += Math.abs(Math.log(Math.max(after, floor) / Math.max(before, floor)));
    count++;
  }
  return count === 0 || !(floor > 0) ? 0 : (sum * 10) / Math.LN10 / count;
}
