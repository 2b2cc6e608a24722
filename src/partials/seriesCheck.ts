import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { median } from "../signal/median.js";
import { LINE_BINS, linePower } from "./linePower.js";
import { seriesShare } from "./seriesShare.js";

/** Which series the lines of a passage belong to. */
export interface SeriesCheck {
  /** The fundamental after the check, within a few cents. */
  readonly frequencyHz: number;
  /** Another fundamental that the lines would almost as well belong to; null where there is no doubt. */
  readonly otherHz: number | null;
  /** Fundamentals of two strings that sound together and were taken for one, low first; null for one string. */
  readonly togetherHz: readonly [number, number] | null;
}

const LOWEST_HZ = 45;
const HIGHEST_HZ = 1700;
/**
 * Lines that only the lower series has must hold this share of the power, or the higher one is what sounds: an octave
 * ringing along in sympathy stays below, the odd partials of a string of its own stand above.
 */
const UP_SHARE = 10 ** -3.2;
const DOWN_SHARE = 10 ** -2;
/** Above the one and below this share (or below the other and above it) the octave is doubtful. */
const DOUBT_SHARE = 10 ** -2.2;
/** Intervals whose common series a tracker takes for one string: a fourth (3:4), then a fifth (2:3), which has all its lines. */
const TOGETHER = [
  [3, 4],
  [2, 3],
] as const;
/**
 * Two strings leave the partials that belong to neither empty. On real and sampled single notes the median of those
 * partials lies at most 4.4 dB under their neighbours, on fifths of two real strings 11 dB or more.
 */
const EMPTY_DB = -8;
/** Each of the two strings must hold this share of the power in partials of its own. */
const FULL_SHARE = 10 ** -1.7;
const LEAST_EMPTY_PARTIALS = 4;
/** So many lines of its own, or as many as there is room for, make a lower series. */
const LEAST_LINES = 3;
/** Higher up the partials of a single string come and go as well. */
const HIGHEST_EMPTY = 20;

/**
 * Checks a fundamental from the frame-wise tracker against the lines of the whole passage, whatever the strength of the
 * fundamental itself: is every second (or only every third) partial there, are there lines between?
 *
 * @param noiseDensity - typical noise density of the passage, power per hertz
 */
export function seriesCheck(spectrum: AverageSpectrum, startHz: number, noiseDensity: number): SeriesCheck {
  const share = (lowerHz: number, wanted: (number: number) => boolean) =>
    seriesShare(spectrum, lowerHz, noiseDensity, wanted);

  let frequencyHz = startHz;
  let otherHz: number | null = null;
  for (let moves = 0; moves < 4; moves++) {
    const before = frequencyHz;
    for (const factor of [2, 3]) {
      if (frequencyHz * factor > HIGHEST_HZ) continue;
      if (share(frequencyHz, (n) => n % factor !== 0).share < UP_SHARE) {
        frequencyHz *= factor;
        break;
      }
    }
    if (frequencyHz !== before) continue;
    for (const factor of [2, 3]) {
      const lower = frequencyHz / factor;
      if (lower < LOWEST_HZ) continue;
      const between = share(lower, (n) => n % factor !== 0);
      const needed = Math.min(LEAST_LINES, Math.floor(ANALYSIS_TOP_HZ / frequencyHz));
      if (between.share > DOWN_SHARE && between.lines >= needed) {
        frequencyHz = lower;
        break;
      }
      if (between.lines >= needed && between.share > DOUBT_SHARE) otherHz = lower;
    }
    if (frequencyHz === before) break;
    otherHz = null;
  }
  const odd = share(frequencyHz, (n) => n % 2 !== 0);
  if (odd.share < DOUBT_SHARE && 2 * frequencyHz <= HIGHEST_HZ) otherHz = 2 * frequencyHz;

  const pair = TOGETHER.find(
    ([p, q]) =>
      share(frequencyHz, (n) => n % p === 0 && n % q !== 0).share > FULL_SHARE &&
      share(frequencyHz, (n) => n % q === 0 && n % p !== 0).share > FULL_SHARE &&
      isEmptyBetween(spectrum, frequencyHz, noiseDensity, p, q),
  );
  return {
    frequencyHz,
    otherHz,
    togetherHz: pair === undefined ? null : [pair[0] * frequencyHz, pair[1] * frequencyHz],
  };
}

/** True where the partials that are multiples of neither `p` nor `q` lie far under the ones that are. */
function isEmptyBetween(
  spectrum: AverageSpectrum,
  frequencyHz: number,
  noiseDensity: number,
  p: number,
  q: number,
): boolean {
  const floor = noiseDensity * spectrum.binHz * LINE_BINS;
  const levelDb = (number: number) =>
    10 * Math.log10(Math.max(linePower(spectrum, number * frequencyHz) - floor, floor, 1e-20));
  const belongs = (number: number) => number % p === 0 || number % q === 0;
  const under = { odd: [] as number[], even: [] as number[] };
  for (let number = 1; number <= HIGHEST_EMPTY && (number + p) * frequencyHz < ANALYSIS_TOP_HZ; number++) {
    if (belongs(number)) continue;
    let below = number - 1;
    let above = number + 1;
    while (below > 0 && !belongs(below)) below--;
    while (!belongs(above)) above++;
    const around = below > 0 ? (levelDb(below) + levelDb(above)) / 2 : levelDb(above);
    // Where the neighbours drown themselves, an empty place says nothing.
    const clear = around > 10 * Math.log10(Math.max(floor, 1e-20)) - 2 * EMPTY_DB;
    if (clear) under[number % 2 === 0 ? "even" : "odd"].push(levelDb(number) - around);
    // A fundamental of its own makes it one string, whatever is missing above.
    if (number === 1 && clear && levelDb(1) - around > EMPTY_DB) return false;
  }
  const evenEmpty = p % 2 === 0 || (under.even.length > 0 && median(under.even) < EMPTY_DB);
  return under.odd.length >= LEAST_EMPTY_PARTIALS && median(under.odd) < EMPTY_DB && evenEmpty;
}
