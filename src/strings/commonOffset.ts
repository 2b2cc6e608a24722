import { median } from "../signal/median.js";

/** What offset from their targets the strings have in common. */
export interface CommonOffset {
  readonly offsetCents: number;
  /** 95 % interval; null for fewer than five strings. */
  readonly interval95Cents: readonly [number, number] | null;
}

/** Strings further off than this are mistuned on their own account, and have no say. */
const IN_USE_CENTS = 60;
/** Fewer say too little about how far strings scatter. */
const LEAST_FOR_INTERVAL = 5;
/**
 * Half width of the 95 % interval of a median, in median absolute deviations over the root of the number of values, for
 * 5 to 10 values: simulated, 60,000 sets of normal values each.
 */
const HALF_WIDTHS = [9.34, 6.47, 6.6, 5.51, 5.59, 4.95];
/** The same for very many: 1.96 * 1.2533 * 1.4826; in between it falls off as 1 / number (within 3 % of the simulation). */
const LARGE_HALF_WIDTH = 3.642;
const SMALL_NUMBER_EXCESS = 3.5;

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
  if (used.length < LEAST_FOR_INTERVAL) return { offsetCents, interval95Cents: null };
  const spread = median(used.map((value) => Math.abs(value - offsetCents)));
  const width =
    HALF_WIDTHS[used.length - LEAST_FOR_INTERVAL] ??
    LARGE_HALF_WIDTH * (1 + SMALL_NUMBER_EXCESS / used.length);
  const half = (width * spread) / Math.sqrt(used.length);
  return { offsetCents, interval95Cents: [offsetCents - half, offsetCents + half] };
}
