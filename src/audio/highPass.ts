import { median } from "../signal/median.js";
import { powerToDb } from "../units/decibels.js";
import type { StretchSpectrum } from "./stretchSpectrum.js";

/** A high-pass somewhere between the room and the file. */
export interface HighPass {
  /** Where the noise has fallen 3 dB below what its own colour would be without the high-pass. */
  readonly cutoffHz: number;
  /** How steeply it falls below, relative to that colour, in dB per octave. */
  readonly slopeDbPerOctave: number;
}

interface Band {
  readonly midbandHz: number;
  readonly densityDb: number;
  readonly weight: number;
}

/** Third-octave bands by their number n, midband 10^(n/10): 25 Hz to 1.6 kHz (IEC 61260-1, base ten). */
const LOWEST_BAND = 14;
const HIGHEST_BAND = 32;
/** A band needs so many bins for its quantile to mean something. */
const LEAST_BINS = 3;
/** Taken of the bins of a band: strings that still ring only add, so the lower part of the bins is the noise. */
const QUANTILE = 0.3;
/** The same quantile of the normal distribution. */
const QUANTILE_NORMAL = -0.524;
/** How far below 200-800 Hz the noise must fall, anywhere between the next two. Rooms and preamplifiers do the opposite. */
const LEAST_DROP_DB = 15;
const DROP_FROM_HZ = 30;
const DROP_TO_HZ = 160;
/** Where short windows leave no band below this, a high-pass at 60 or 80 Hz can't be ruled out. */
const LOWEST_NEEDED_HZ = 45;
/** A microphone rolls off with 6 dB per octave; 12 and more is a filter put there. */
const LEAST_SLOPE_ORDER = 2;
/** Colours of noise that need no filter, in dB per octave of density (brown -6, blue +3; common practice, no source). */
const STEEPEST_COLOUR = -9;
const RISING_COLOUR = 1.5;
/** Below the filter other noise takes over: bands this close to the lowest one are not part of the slope. */
const FLOOR_MARGIN_DB = 4;
/** Real noise is no straight line: half a decibel of scatter on top of the statistical one (variance in dB^2). */
const COLOUR_VARIANCE = 0.25;
/** With less room than this above the quantisation noise a drop can't show ... */
const LEAST_ROOM_DB = LEAST_DROP_DB + 3;
/** ... unless the low bands themselves stand so far above it: then they were not taken away. */
const LEAST_LOW_ROOM_DB = 6;

/**
 * Judges whether the noise in the pauses was high-passed: a phone or an interface takes the lowest octaves away.
 *
 * Fits a straight colour (dB per octave) times a Butterworth high-pass to third-octave bands.
 *
 * @param linesHz - hum lines, left out of the bands
 * @param quantisationDensity - power per hertz of the file's own quantisation noise
 * @returns `short-pauses` or `quantisation` where the pauses can't tell; null where nothing was taken away
 */
export function highPass(
  spectrum: StretchSpectrum,
  linesHz: readonly number[],
  quantisationDensity: number,
): HighPass | "short-pauses" | "quantisation" | null {
  const bands = bandDensities(spectrum, linesHz);
  const middle = median(
    bands.filter(({ midbandHz }) => midbandHz > 190 && midbandHz < 830).map(({ densityDb }) => densityDb),
  );
  const low = bands.filter(({ midbandHz }) => midbandHz >= DROP_FROM_HZ && midbandHz <= DROP_TO_HZ);
  const lowest = Math.min(...low.map((band) => band.densityDb));
  const drop = middle - lowest;
  if (drop >= LEAST_DROP_DB) {
    const fit = fitHighPass(aboveFloor(bands));
    if (fit.order >= LEAST_SLOPE_ORDER) {
      return { cutoffHz: fit.cutoffHz, slopeDbPerOctave: 20 * Math.log10(2) * fit.order };
    }
  }
  if (bands[0].midbandHz > LOWEST_NEEDED_HZ) return "short-pauses";
  const floor = powerToDb(quantisationDensity);
  return middle - floor < LEAST_ROOM_DB && lowest - floor < LEAST_LOW_ROOM_DB ? "quantisation" : null;
}

function bandDensities(spectrum: StretchSpectrum, linesHz: readonly number[]): Band[] {
  const { density, binHz, windowCount } = spectrum;
  const isLine = new Set(
    linesHz.flatMap((line) => [-3, -2, -1, 0, 1, 2, 3].map((d) => Math.round(line / binHz) + d)),
  );
  // That quantile of a mean of M exponentials relative to its mean (Wilson & Hilferty 1931).
  const toMean = (1 - 1 / (9 * windowCount) + QUANTILE_NORMAL / (3 * Math.sqrt(windowCount))) ** 3;
  const bands: Band[] = [];
  for (let n = LOWEST_BAND; n <= HIGHEST_BAND; n++) {
    const midbandHz = 10 ** (n / 10);
    const bins: number[] = [];
    const last = Math.floor((midbandHz * 10 ** 0.05) / binHz);
    for (let b = Math.ceil((midbandHz * 10 ** -0.05) / binHz); b <= last; b++) {
      if (!isLine.has(b)) bins.push(density[b]);
    }
    if (bins.length < LEAST_BINS) continue;
    const densityDb = powerToDb(quantile(bins) / toMean);
    const variance = 30 / (bins.length * windowCount);
    bands.push({ midbandHz, densityDb, weight: 1 / (variance + COLOUR_VARIANCE) });
  }
  return bands;
}

/** Leaves out the lowest bands where they lie on a floor of other noise. */
function aboveFloor(bands: readonly Band[]): readonly Band[] {
  const levels = bands.map((band) => band.densityDb);
  const lowest = Math.min(...levels);
  const onFloor = levels.filter((level) => level < lowest + FLOOR_MARGIN_DB).length;
  // One or two bands near the lowest are what a plain slope looks like.
  if (levels.indexOf(lowest) === 0 && onFloor <= 2) return bands;
  const isFloor = (band: Band) => band.midbandHz < 400 && band.densityDb < lowest + FLOOR_MARGIN_DB;
  const first = bands.length - [...bands].reverse().findIndex(isFloor);
  return bands.length - first >= 6 ? bands.slice(first) : bands;
}

function fitHighPass(bands: readonly Band[]): { cutoffHz: number; order: number } {
  let best = { cutoffHz: 0, order: 0 };
  let bestError = Number.POSITIVE_INFINITY;
  for (let order = 0.5; order <= 8; order += 0.25) {
    for (let step = 0; step <= 108; step++) {
      const cutoffHz = 25 * 2 ** (step / 24);
      const error = misfit(bands, cutoffHz, order);
      if (error < bestError) {
        bestError = error;
        best = { cutoffHz, order };
      }
    }
  }
  return best;
}

/** Weighted squares left after the best straight colour, its slope kept within what noise has. */
function misfit(bands: readonly Band[], cutoffHz: number, order: number): number {
  let w = 0;
  let wx = 0;
  let wy = 0;
  let wxx = 0;
  let wxy = 0;
  const points = bands.map(({ midbandHz, densityDb, weight }) => {
    const x = Math.log2(midbandHz / 400);
    const y = densityDb + powerToDb(1 + (cutoffHz / midbandHz) ** (2 * order));
    w += weight;
    wx += weight * x;
    wy += weight * y;
    wxx += weight * x * x;
    wxy += weight * x * y;
    return { x, y, weight };
  });
  const free = (w * wxy - wx * wy) / (w * wxx - wx * wx);
  const slope = Math.min(RISING_COLOUR, Math.max(STEEPEST_COLOUR, free));
  const level = (wy - slope * wx) / w;
  return points.reduce((sum, { x, y, weight }) => sum + weight * (y - level - slope * x) ** 2, 0);
}

function quantile(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = QUANTILE * (sorted.length - 1);
  const low = Math.floor(place);
  return sorted[low] + (place - low) * (sorted[Math.min(low + 1, sorted.length - 1)] - sorted[low]);
}
