import { median } from "../signal/median.js";
import { powerToDb } from "../units/decibels.js";
import type { FullRateSpectrum } from "./fullRateSpectrum.js";

/** A wall in the spectrum above which the recording holds nothing. */
export interface BandLimit {
  /** The highest frequency that stands within 10 dB of the level below the wall. */
  readonly cutoffHz: number;
  /** How far the level falls from there to the floor ... */
  readonly fallDb: number;
  /** ... and within how many hertz it has come to within 6 dB of it, to 50 Hz. */
  readonly widthHz: number;
}

interface Band {
  readonly meanDb: number;
  /** The lowest bin: what stands between the partials. */
  readonly restDb: number;
}

const BAND_HZ = 50;
/** The telephone band ends at 3400 Hz (ITU-T G.712, from memory), and no codec in use lower; strings' partials may. */
const LOWEST_HZ = 3200;
const FROM = 3000 / BAND_HZ;
/** Closer to half the sample rate it is the recorder's own filter against folding. */
const HIGHEST_SHARE = 0.44;
/** The last bit below half the sample rate is filtered in any recorder. */
const TOP_SHARE = 0.49;
/** The level before the wall is that of so much below it. */
const BELOW = 800 / BAND_HZ;
/** A wall is done within this (telephone codecs and resamplers are the slowest); a microphone takes octaves. */
const WALL = 500 / BAND_HZ;
const LEAST_ABOVE = 500 / BAND_HZ;
const LEAST_FALL_DB = 25;
/** Partials may end by themselves, the noise between them does not: it must fall too, and by so much of what they fall. */
const LEAST_REST_FALL_DB = 15;
const LEAST_REST_SHARE = 0.45;
/** Above the wall nothing stands out by more: else the strings go on. */
const FLATNESS_DB = 8;
/** What is so far down may be what a filter left of the strings. */
const FILTERED_DB = 50;
/** Nothing at all so soon above it; higher up a few bands may hold whistles (of a power supply). */
const QUIET = 1600 / BAND_HZ;
const MOST_STANDING = 4;
/** Bands that hold a strong partial show its skirts only; the others show what stands between. */
const GAP_QUANTILE = 0.2;
const CUTOFF_DB = 10;
const FLOOR_MARGIN_DB = 6;
/** Fewer windows don't tell noise from nothing. */
const LEAST_WINDOWS = 3;
/** Power density below anything a file holds, for digital silence. */
const SILENCE = 1e-20;

/**
 * Looks for a steep upper limit, as a lossy codec or a resampler leaves it: within 500 Hz the spectrum of the notes, and the
 * noise between their partials, falls onto a flat floor that reaches to half the sample rate.
 *
 * @returns null where there is none below 0.44 of the sample rate, or where the sound had sunk into the noise before
 */
export function bandLimit({ binHz, density, windowCount }: FullRateSpectrum): BandLimit | null {
  if (windowCount < LEAST_WINDOWS) return null;
  const rateHz = 2 * binHz * density.length;
  const bands = bandsOf(density, binHz, Math.floor((TOP_SHARE * rateHz) / BAND_HZ));
  const last = Math.min((HIGHEST_SHARE * rateHz) / BAND_HZ, bands.length - WALL - LEAST_ABOVE);
  let best: { edge: number; fallDb: number } | null = null;
  for (let edge = FROM; edge <= last; edge++) {
    const fallDb = fallAt(bands, edge);
    if (fallDb !== null && fallDb > (best?.fallDb ?? 0)) best = { edge, fallDb };
  }
  const found = best === null ? null : located(bands, best.edge);
  if (found === null || found.cutoffHz < LOWEST_HZ || found.cutoffHz > HIGHEST_SHARE * rateHz) return null;
  return found;
}

/** How far the level falls at a wall that begins or ends close to this band; null where there is none. */
function fallAt(bands: readonly Band[], edge: number): number | null {
  const before = bands.slice(edge - BELOW, edge);
  const levelDb = median(before.map(({ meanDb }) => meanDb));
  // Cheap first: few edges get beyond this.
  if (levelDb - bands[edge + WALL].meanDb < LEAST_FALL_DB) return null;
  const after = bands.slice(edge + WALL);
  const floorDb = median(after.map(({ meanDb }) => meanDb));
  const fallDb = levelDb - floorDb;
  const highestDb = Math.max(floorDb + FLATNESS_DB, levelDb - FILTERED_DB);
  const stands = (band: Band) => band.meanDb > highestDb;
  const isFlat = !after.slice(0, QUIET).some(stands) && after.filter(stands).length <= MOST_STANDING;
  if (fallDb < LEAST_FALL_DB || !isFlat) return null;
  const rest = before.map(({ restDb }) => restDb).sort((a, b) => a - b);
  const restFallDb = rest[Math.floor(GAP_QUANTILE * rest.length)] - median(after.map(({ restDb }) => restDb));
  return restFallDb >= Math.max(LEAST_REST_FALL_DB, LEAST_REST_SHARE * fallDb) ? fallDb : null;
}

function located(bands: readonly Band[], edge: number): BandLimit {
  // Further down, so that a slow wall is no part of it.
  const levelDb = median(bands.slice(edge - WALL - BELOW, edge - WALL).map(({ meanDb }) => meanDb));
  const floorDb = median(bands.slice(edge + WALL).map(({ meanDb }) => meanDb));
  let top = edge + WALL;
  while (top > edge - WALL - BELOW && bands[top].meanDb < levelDb - CUTOFF_DB) top--;
  let bottom = top + 1;
  while (bottom < edge + WALL && bands[bottom].meanDb > floorDb + FLOOR_MARGIN_DB) bottom++;
  return {
    cutoffHz: (top + 1) * BAND_HZ,
    fallDb: levelDb - floorDb,
    widthHz: Math.max(1, bottom - top - 1) * BAND_HZ,
  };
}

function bandsOf(density: Float64Array, binHz: number, count: number): Band[] {
  return Array.from({ length: count }, (_, k) => {
    const bins = density
      .slice(Math.ceil((k * BAND_HZ) / binHz), Math.ceil(((k + 1) * BAND_HZ) / binHz))
      .sort();
    const mean = bins.reduce((sum, value) => sum + value, 0) / bins.length;
    return {
      meanDb: powerToDb(mean + SILENCE),
      restDb: powerToDb(bins[0] + SILENCE),
    };
  });
}
