import { fourierTables } from "../kernels/fourierTables.js";
import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { filtered } from "./whitenedFit.js";

/** How strongly a line at each rate stands out, window by window. */
export interface RateMap {
  readonly ratesHz: Float64Array;
  /** Centres of the windows, in seconds from the first step. */
  readonly seconds: Float64Array;
  /** Indexed [window][rate]: 1 on the mean for each series where nothing but noise is there. */
  readonly strength: readonly Float64Array[];
}

/** One white series: the rest of a fit and the filter that makes it white. */
export interface WhiteSeries {
  readonly values: Float64Array;
  readonly filter: Float64Array;
  readonly variance: number;
}

/**
 * Power of all series together at each rate, in windows of Hann shape.
 *
 * @param windowSeconds - longer than the series: one window over all of it
 */
export function rateMap(
  series: readonly WhiteSeries[],
  stepSeconds: number,
  windowSeconds: number,
  hopSeconds: number,
  rangeHz: readonly [number, number],
  gridHz: number,
): RateMap {
  const white = series.map(({ values, filter, variance }) => ({
    values: filtered(values, filter),
    variance,
    skip: filter.length - 1,
  }));
  const shortest = Math.min(...white.map(({ values }) => values.length));
  const length = Math.min(shortest, Math.max(8, Math.round(windowSeconds / stepSeconds)));
  const size = nextPowerOfTwo(Math.max(length, 1 / stepSeconds / gridHz));
  const binHz = 1 / stepSeconds / size;
  const first = Math.max(1, Math.ceil(rangeHz[0] / binHz));
  const last = Math.min(size / 2 - 1, Math.floor(rangeHz[1] / binHz));
  const count = Math.max(0, last - first + 1);
  const hop = Math.max(1, Math.round(hopSeconds / stepSeconds));
  const windowCount = Math.floor((shortest - length) / hop) + 1;
  const window = Float64Array.from(
    { length },
    (_, m) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (m + 0.5)) / length),
  );
  const norm = window.reduce((sum, value) => sum + value * value, 0);
  const strength: Float64Array[] = [];
  const seconds = new Float64Array(windowCount);
  const skip = Math.max(...white.map((one) => one.skip));
  const longest = Math.max(...white.map(({ values }) => values.length));
  const work = new KernelRows(ScratchUser.spectra, 2, size + 2);
  // Each series, the window, and a row of strengths.
  const rows = new KernelRows(ScratchUser.rates, white.length + 2, Math.max(longest, length, count));
  for (let i = 0; i < white.length; i++) rows.put(i, white[i].values);
  const [windowAt, rowAt] = [rows.place(white.length), rows.place(white.length + 1)];
  rows.put(white.length, window);
  const { factors, turns } = fourierTables(size / 2);
  const { functions } = kernels();
  for (let w = 0; w < windowCount; w++) {
    seconds[w] = (w * hop + length / 2 + skip) * stepSeconds;
    rows.fill(white.length + 1, 0);
    for (let i = 0; i < white.length; i++) {
      const from = Math.min(white[i].values.length - length, w * hop + skip - white[i].skip);
      const series = rows.place(i) + from * Float64Array.BYTES_PER_ELEMENT;
      // biome-ignore format: arguments of a kernel
      functions.addWindowPower(series, windowAt, length, size, work.place(0), work.place(1), factors, turns, first, last, 1 / norm / white[i].variance, rowAt);
    }
    strength.push(rows.copy(white.length + 1, count));
  }
  return { ratesHz: Float64Array.from({ length: count }, (_, b) => (first + b) * binHz), seconds, strength };
}
