import type { Temperament } from "../units/temperament.js";
import { centsOverTonic } from "../units/temperament.js";

/**
 * Cents of every key over the open string, key 0 (the open string itself, 0 cents) to the highest.
 *
 * In equal temperament that is 100 a key. In the others each note stands where the temperament over the tonic puts it, and
 * the open string, which is one of the notes, is what they are counted from.
 *
 * @param openDegree - semitones of the open string over the tonic; any whole number
 * @example
 * ```ts
 * keyLadder("just", 0, 7)[7]; // 701.955, the pure fifth over a string tuned to the tonic
 * ```
 */
export function keyLadder(temperament: Temperament, openDegree: number, keys: number): number[] {
  const open = centsOverTonic(temperament, openDegree);
  return Array.from({ length: keys + 1 }, (_, key) => centsOverTonic(temperament, openDegree + key) - open);
}
