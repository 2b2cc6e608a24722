/**
 * The interval from a reference to a frequency in cents, 1200 log2(f / f_ref); sharp is positive.
 *
 * A plain number in and out: a frequency of 0 gives -Infinity and a negative one NaN, so callers guard.
 *
 * @example
 * ```ts
 * cents(660, 440); // 701.955, the pure fifth
 * ```
 */
export function cents(frequencyHz: number, referenceHz: number): number {
  return 1200 * Math.log2(frequencyHz / referenceHz);
}

/** The frequency that lies `cents` above (negative: below) another one: f * 2^(cents / 1200). */
export function shiftByCents(frequencyHz: number, cents: number): number {
  return frequencyHz * 2 ** (cents / 1200);
}
