import { cents } from "./cents.js";

/** The temperaments that can be chosen, by the names used in instrument files. */
export const temperaments = ["equal", "just", "pythagorean", "quarter-comma-meantone"] as const;

/** How the twelve notes of the octave are placed. */
export type Temperament = (typeof temperaments)[number];

const justRatios: readonly (readonly [number, number])[] = [
  [1, 1],
  [16, 15],
  [9, 8],
  [6, 5],
  [5, 4],
  [4, 3],
  [45, 32],
  [3, 2],
  [8, 5],
  [5, 3],
  [9, 5],
  [15, 8],
];

/** Twelve notes from five fifths down to six up: the wolf lies from the sixth up to the fifth down. */
function chainOfFifths(fifthCents: number): readonly number[] {
  const degrees: number[] = new Array(12).fill(0);
  for (let fifths = -5; fifths <= 6; fifths += 1) {
    degrees[(7 * (fifths + 12)) % 12] = fifths * fifthCents - 1200 * Math.floor((fifths * fifthCents) / 1200);
  }
  return degrees;
}

const degreesOverTonic: Readonly<Record<Temperament, readonly number[]>> = {
  equal: justRatios.map((_ratio, degree) => 100 * degree),
  just: justRatios.map(([upper, lower]) => cents(upper, lower)),
  pythagorean: chainOfFifths(cents(3, 2)),
  // Four fifths make two octaves and a pure major third, so the fifth is the fourth root of 5.
  "quarter-comma-meantone": chainOfFifths(cents(5 ** 0.25, 1)),
};

/**
 * Cents over the tonic of the note `semitones` keys above it (negative: below), in a temperament built on it.
 *
 * Just: 1/1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8. Pythagorean (fifths of 3/2) and quarter-comma
 * meantone (fifths of 5^(1/4)): a chain from five fifths below the tonic to six above it.
 *
 * @param semitones - a whole number of any size; octaves are always 1200 cents
 *
 * @example
 * ```ts
 * centsOverTonic("quarter-comma-meantone", 4); // 386.314, the pure major third
 * ```
 */
export function centsOverTonic(temperament: Temperament, semitones: number): number {
  const octave = Math.floor(semitones / 12);
  return 1200 * octave + (degreesOverTonic[temperament][semitones - 12 * octave] ?? Number.NaN);
}
