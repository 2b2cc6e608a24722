import { cents } from "../units/cents.js";

/** Ratios that strings are tuned to, upper over lower: unison, fourth, fifth, octave, twelfth, double octave. */
const RATIOS: readonly (readonly [upper: number, lower: number])[] = [
  [1, 1],
  [4, 3],
  [3, 2],
  [2, 1],
  [3, 1],
  [4, 1],
];
/** Further from pure than this, two strings are not meant to be in that ratio, or are not tuned yet. */
const NEAR_PURE_CENTS = 40;

/** The ratio, upper over lower, that two strings are near to; null where they are near none. */
export function nearRatio(lowerHz: number, upperHz: number): readonly [upper: number, lower: number] | null {
  return RATIOS.find(([p, q]) => Math.abs(cents((upperHz * q) / p, lowerHz)) <= NEAR_PURE_CENTS) ?? null;
}
