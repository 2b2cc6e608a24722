import { tQuantile } from "./tQuantile.js";

/** A mean and half the width of its 95 % interval. */
export interface MeanInterval {
  readonly mean: number;
  readonly halfWidth: number;
}

/** Neighbouring blocks of a slowly moving series resemble each other; more than this is not told from a drift. */
const LARGEST_CORRELATION = 0.6;
/** The correlation of a few blocks with their neighbours comes out too low by about 1 / blocks or a little more (Kendall 1954). */
const CORRELATION_BIAS = 1.25;

/**
 * Mean of a series whose neighbours are correlated, with a 95 % interval.
 *
 * Block means are taken as the sample for Student's t; what correlation is left between neighbouring blocks widens it by
 * (1 + r) / (1 - r), the variance of the mean of a first-order autoregressive series.
 *
 * @param blockMeans - at least three, in order of time
 * @returns null for fewer than three
 */
export function meanInterval(blockMeans: ArrayLike<number>): MeanInterval | null {
  const count = blockMeans.length;
  if (count < 3) return null;
  let mean = 0;
  for (let i = 0; i < count; i++) mean += blockMeans[i] / count;
  let squares = 0;
  let products = 0;
  for (let i = 0; i < count; i++) {
    squares += (blockMeans[i] - mean) ** 2;
    if (i > 0) products += (blockMeans[i] - mean) * (blockMeans[i - 1] - mean);
  }
  if (squares === 0) return { mean, halfWidth: 0 };
  const correlation = Math.min(
    LARGEST_CORRELATION,
    Math.max(0, products / squares + CORRELATION_BIAS / count),
  );
  const variance = ((squares / (count - 1) / count) * (1 + correlation)) / (1 - correlation);
  return { mean, halfWidth: Math.sqrt(variance) * tQuantile(0.975, count - 1) };
}
