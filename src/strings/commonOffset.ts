import { median } from "../signal/median.js";
import { tQuantile } from "../statistics/tQuantile.js";

/** What offset from their targets the strings have in common. */
export interface CommonOffset {
  readonly offsetCents: number;
  /** 95 % interval; null for fewer than three strings. */
  readonly interval95Cents: readonly [number, number] | null;
}

/** Strings further off than this are mistuned on their own account, and have no say. */
const IN_USE_CENTS = 60;
/** Standard error of a median over that of a mean, for normal values. */
const MEDIAN_LOSS = 1.2533;
/** Median absolute deviation to standard deviation, for normal values. */
const MAD_TO_DEVIATION = 1.4826;

/**
 * The common offset of all strings, robustly: the median of their deviations, so that one string far out doesn't pull
 * the others along. Its interval comes from the spread between strings.
 *
 * @returns null where no string is within 60 cents of its target
 */
export function commonOffset(deviationsCents: readonly number[]): CommonOffset | null {
  const used = deviationsCents.filter((value) => Math.abs(value) <= IN_USE_CENTS);
  if (used.length === 0) return null;
  const offsetCents = median(used);
  if (used.length < 3) return { offsetCents, interval95Cents: null };
  const spread = MAD_TO_DEVIATION * median(used.map((value) => Math.abs(value - offsetCents)));
  const half = (MEDIAN_LOSS * spread * tQuantile(0.975, used.length - 1)) / Math.sqrt(used.length);
  return { offsetCents, interval95Cents: [offsetCents - half, offsetCents + half] };
}
