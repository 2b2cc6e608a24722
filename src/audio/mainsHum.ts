import { median } from "../signal/median.js";
import { dbToPower, powerToDb } from "../units/decibels.js";
import type { StretchSpectrum } from "./stretchSpectrum.js";

/** Hum of the mains as it stands in the pauses. */
export interface MainsHum {
  readonly humHz: 50 | 60;
  /** Sum of all lines found, relative to a full-scale sine. */
  readonly levelDb: number;
  /** The lines found, ascending. */
  readonly frequenciesHz: readonly number[];
  readonly strongestHz: number;
}

interface Line {
  readonly harmonic: number;
  readonly frequencyHz: number;
  readonly power: number;
  readonly prominenceDb: number;
}

/** The mains stays within this of its nominal frequency (European grid code, 49.8 to 50.2 Hz; from memory). */
const MAINS_WANDER_HZ = 0.2;
/** Lines are looked for up to here: the top of the analysis band. */
const HIGHEST_HZ = 2990;
/** How far a line must stand out of the spectrum around it. Chance reaches this once in a million bins ... */
const LEAST_PROMINENCE_DB = 10;
/** ... and this, where fewer than three windows were averaged. */
const LEAST_PROMINENCE_FEW_DB = 14;
const FEW_WINDOWS = 3;
/** A line this far below a neighbour may be the foot of the neighbour's own peak. */
const SHADOW_DB = 25;
/** Hum stays; a string that rings on falls by more between the first and the last part of a pause. */
const LARGEST_FALL_DB = 3;
/** The pattern of harmonics is looked for among these. */
const PATTERN_HARMONICS = 12;
/** Without the fundamental, two lines must include one of the first three, or there must be three lines. */
const LOW_HARMONICS = 3;

/**
 * Looks for mains hum: steady lines at whole multiples of one frequency near 50 or 60 Hz.
 *
 * @returns null where there is none; of 50 and 60 Hz the stronger one
 */
export function mainsHum(spectrum: StretchSpectrum): MainsHum | null {
  const found = ([50, 60] as const).map((humHz) => humAt(spectrum, humHz)).filter((hum) => hum !== null);
  return found.sort((a, b) => b.levelDb - a.levelDb)[0] ?? null;
}

function humAt(spectrum: StretchSpectrum, humHz: 50 | 60): MainsHum | null {
  // A line is placed to about a tenth of a bin by interpolation; twice that with noise.
  const tolerance = Math.max(0.2, 0.2 * spectrum.binHz);
  const candidates: Line[] = [];
  for (let h = 1; h <= PATTERN_HARMONICS; h++) {
    candidates.push(...linesNear(spectrum, h, h * humHz, h * MAINS_WANDER_HZ + tolerance));
  }
  const fundamental = commonFundamental(candidates, humHz, tolerance);
  if (fundamental === null) return null;
  const lines: Line[] = [];
  for (let h = 1; h * fundamental <= HIGHEST_HZ; h++) {
    const near = linesNear(spectrum, h, h * fundamental, tolerance);
    if (near.length > 0) lines.push(near.reduce((a, b) => (b.power > a.power ? b : a)));
  }
  const pattern = lines.filter((line) => line.harmonic <= PATTERN_HARMONICS);
  const enough =
    lines[0]?.harmonic === 1 ||
    pattern.length >= 3 ||
    (pattern.length === 2 && pattern[0].harmonic <= LOW_HARMONICS);
  if (!enough) return null;
  const power = lines.reduce((sum, line) => sum + line.power, 0);
  const strongest = lines.reduce((a, b) => (b.power > a.power ? b : a));
  const together = jointFundamental(lines);
  return {
    humHz,
    levelDb: powerToDb(power / 0.5),
    frequenciesHz: lines.map((line) => line.harmonic * together),
    strongestHz: strongest.harmonic * together,
  };
}

/** The fundamental whose multiples meet most of the candidates, each weighed by how far it stands out. */
function commonFundamental(candidates: readonly Line[], humHz: number, tolerance: number): number | null {
  let best: number | null = null;
  let bestScore = 0;
  for (const { frequencyHz, harmonic } of candidates) {
    const fundamental = frequencyHz / harmonic;
    if (Math.abs(fundamental - humHz) > MAINS_WANDER_HZ + tolerance / harmonic) continue;
    const score = candidates
      .filter((line) => Math.abs(line.frequencyHz - line.harmonic * fundamental) <= tolerance)
      // Of fundamentals that meet the same lines the one given by the highest harmonic is the best known.
      .reduce((sum, line) => sum + line.prominenceDb, 0.001 * harmonic);
    if (score > bestScore) {
      bestScore = score;
      best = fundamental;
    }
  }
  return best;
}

/** Harmonics move together: least squares over all lines, each weighed by how far it stands out. */
function jointFundamental(lines: readonly Line[]): number {
  let sum = 0;
  let weights = 0;
  for (const { harmonic, frequencyHz, prominenceDb } of lines) {
    sum += dbToPower(prominenceDb) * harmonic * frequencyHz;
    weights += dbToPower(prominenceDb) * harmonic * harmonic;
  }
  return sum / weights;
}

function linesNear(spectrum: StretchSpectrum, harmonic: number, centreHz: number, reachHz: number): Line[] {
  const { density, binHz, windowCount } = spectrum;
  const threshold = windowCount < FEW_WINDOWS ? LEAST_PROMINENCE_FEW_DB : LEAST_PROMINENCE_DB;
  const lines: Line[] = [];
  const last = Math.min(density.length - 8, Math.ceil((centreHz + reachHz) / binHz));
  for (let b = Math.max(7, Math.floor((centreHz - reachHz) / binHz)); b <= last; b++) {
    if (!(density[b] > density[b - 1] && density[b] >= density[b + 1])) continue;
    const frequencyHz = (b + peakOffset(density, b)) * binHz;
    if (Math.abs(frequencyHz - centreHz) > reachHz) continue;
    const around = background(density, b, binHz);
    const prominenceDb = powerToDb(density[b] / around);
    if (!(prominenceDb >= threshold)) continue;
    const strongestNear = Math.max(...density.subarray(b - 6, b + 7));
    if (powerToDb(strongestNear / density[b]) > SHADOW_DB) continue;
    if (fallDb(spectrum, b) > LARGEST_FALL_DB) continue;
    let power = 0;
    for (let i = b - 2; i <= b + 2; i++) power += Math.max(0, density[i] - around) * binHz;
    lines.push({ harmonic, frequencyHz, power, prominenceDb });
  }
  return lines;
}

/** Where between the bins the peak of a Hann-windowed sine lies, from the two largest bins (Rife & Vincent 1970). */
function peakOffset(density: Float64Array, b: number): number {
  const side = density[b + 1] >= density[b - 1] ? 1 : -1;
  const ratio = Math.sqrt(density[b + side] / density[b]);
  return (side * (2 * ratio - 1)) / (ratio + 1);
}

/** The spectrum around a bin: geometric mean of the medians on either side, so that a slope does not matter. */
function background(density: Float64Array, b: number, binHz: number): number {
  const reach = Math.min(40, Math.max(6, Math.round(20 / binHz)));
  const below = median(density.subarray(Math.max(1, b - reach), b - 2));
  const above = median(density.subarray(b + 3, b + reach + 1));
  return Math.sqrt(below * above);
}

function fallDb(spectrum: StretchSpectrum, b: number): number {
  let early = 0;
  let late = 0;
  for (let i = b - 1; i <= b + 1; i++) {
    early += spectrum.early[i];
    late += spectrum.late[i];
  }
  return powerToDb(early / late);
}
