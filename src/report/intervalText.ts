import { signed } from "./signed.js";

/** What a number in the document may be off by from being rounded itself. */
const roundingSlack = 1e-6;

/**
 * An interval as `+2.1 to +2.9`, its ends rounded outward, so that what lies in it lies in the printed one too.
 */
export function intervalText(interval: readonly [number, number], digits: number): string {
  const [low, high] = roundedOutward(interval, digits);
  return `${signed(low, digits)} to ${signed(high, digits)}`;
}

/** The ends of an interval, rounded away from each other. */
export function roundedOutward(
  [low, high]: readonly [number, number],
  digits: number,
): readonly [number, number] {
  const unit = 10 ** digits;
  return [Math.floor(low * unit + roundingSlack) / unit, Math.ceil(high * unit - roundingSlack) / unit];
}
