import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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
  const count = sums.rowCount - 1;
  const share = 10 ** (-BELOW_TOP_DB / 10);
  const changes = Array.from({ length: count }, (_, i) => {
    if (i < side || i + side > count) return 0;
    const [start, middle, end] = [i - side, i, i + side].map((row) => sums.rows.place(row));
    const ratio = kernels().functions.meanLogRatio(start, middle, end, sums.rows.length, share);
    return (10 / Math.LN10) * ratio;
  });
  const times: number[] = [];
  for (const [i, change] of changes.entries()) {
    const around = changes.slice(Math.max(0, i - side), i + side + 1);
    if (change < LEAST_CHANGE_DB || change < Math.max(...around) || change === changes[i - 1]) continue;
    // Window i begins at i steps; the change lies between the windows before it and those from it on.
    times.push(firstSeconds + i * STEP_SECONDS + size / sampleRateHz / 2 - STEP_SECONDS / 2);
  }
  return times;
}

/** Power spectra of overlapping windows, each added to the sum of all before it, in the kernels' memory; row 0 is empty. */
function runningSums(samples: Float32Array, sampleRateHz: number, size: number, stepSamples: number) {
  const from = Math.ceil((LOWEST_HZ * size) / sampleRateHz);
  const to = Math.min(size / 2, Math.floor((HIGHEST_HZ * size) / sampleRateHz));
  const powers = new WindowedPower(size, hannWindow(size));
  const rowCount = 1 + Math.max(0, Math.floor((samples.length - size) / stepSamples) + 1);
  const rows = new KernelRows(ScratchUser.changes, rowCount, to - from + 1);
  rows.fill(0, 0);
  for (let row = 1; row < rowCount; row++) {
    powers.add(samples, (row - 1) * stepSamples);
    rows.put(row, powers.sums.subarray(from, to + 1));
  }
  return { rows, rowCount };
}
