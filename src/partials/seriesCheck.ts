import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { linePower } from "./linePower.js";

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
/** A line counts when it stands this far above the noise between lines. */
const LINE_OVER_NOISE = 10;
/** Two strings a fifth apart leave the partials that are multiples of neither 2 nor 3 empty. */
const EMPTY_SHARE = 10 ** -2.6;
const FULL_SHARE = 10 ** -1.5;

/**
 * Checks a fundamental from the frame-wise tracker against the lines of the whole passage, whatever the strength of the
 * fundamental itself: is every second (or only every third) partial there, are there lines between?
 *
 * @param noiseDensity - typical noise density of the passage, power per hertz
 */
export function seriesCheck(spectrum: AverageSpectrum, startHz: number, noiseDensity: number): SeriesCheck {
  const share = (frequencyHz: number, wanted: (number: number) => boolean) => {
    let inside = 0;
    let total = 0;
    let lines = 0;
    const floor = noiseDensity * spectrum.binHz * 9;
    for (let number = 1; number * frequencyHz < ANALYSIS_TOP_HZ; number++) {
      const power = linePower(spectrum, number * frequencyHz) - floor;
      if (power <= 0) continue;
      total += power;
      if (!wanted(number)) continue;
      if (power > LINE_OVER_NOISE * floor) lines++;
      inside += power;
    }
    return { share: total > 0 ? inside / total : 0, lines };
  };

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
      if (between.share > DOWN_SHARE && between.lines >= 3) {
        frequencyHz = lower;
        break;
      }
      if (between.lines >= 3 && between.share > DOUBT_SHARE) otherHz = lower;
    }
    if (frequencyHz === before) break;
    otherHz = null;
  }
  const odd = share(frequencyHz, (n) => n % 2 !== 0);
  if (odd.share < DOUBT_SHARE && 2 * frequencyHz <= HIGHEST_HZ) otherHz = 2 * frequencyHz;

  const empty = share(frequencyHz, (n) => n % 2 !== 0 && n % 3 !== 0).share;
  const twos = share(frequencyHz, (n) => n % 2 === 0 && n % 3 !== 0).share;
  const threes = share(frequencyHz, (n) => n % 3 === 0 && n % 2 !== 0).share;
  const together = empty < EMPTY_SHARE && twos > FULL_SHARE && threes > FULL_SHARE;
  return { frequencyHz, otherHz, togetherHz: together ? [2 * frequencyHz, 3 * frequencyHz] : null };
}
