import { median } from "../signal/median.js";
import { differenceInterval } from "../strings/differenceInterval.js";
import type { ChangeVerdict, PitchChange } from "./HistoryReading.js";

type Interval = readonly [number, number];
/** A change by itself, before it is set beside the others. */
export type SingleChange = Pick<PitchChange, "fromTake" | "days" | "cents" | "interval95Cents">;

/** Less is left alone, as in tuning: pressure on the wheel and the cotton do as much from one take to the next (our policy). */
const LEAST_CENTS = 1;
const LEAST_OTHERS = 2;
/** Variance of the median of 1 to 10 normal values (tables of order statistics, from memory; the tests hold them to a simulation). */
const MEDIAN_VARIANCES = [1, 0.5, 0.4487, 0.2982, 0.2868, 0.2147, 0.2104, 0.1682, 0.1661, 0.1383];

/**
 * Sets the change of a string beside those of the other strings between the same two takes. What the others did is the median of
 * their changes; its interval holds how surely they are read, not how much they differ.
 */
export function compareChange(change: SingleChange, others: readonly SingleChange[]): PitchChange {
  const middle = others.length < LEAST_OTHERS ? null : median(others.map(({ cents }) => cents));
  const othersInterval = middle === null ? null : medianInterval(middle, others);
  const own = middle === null ? null : change.cents - middle;
  const ownInterval =
    othersInterval === null || change.interval95Cents === null
      ? null
      : differenceInterval(change.interval95Cents, othersInterval);
  return {
    ...change,
    othersCents: middle,
    othersInterval95Cents: othersInterval,
    ownCents: own,
    ownInterval95Cents: ownInterval,
    verdict: verdictOf(
      isShown(change.cents, change.interval95Cents),
      isShown(middle, othersInterval),
      isShown(own, ownInterval),
    ),
  };
}

function medianInterval(middle: number, changes: readonly SingleChange[]): Interval | null {
  let squares = 0;
  for (const { interval95Cents } of changes) {
    if (interval95Cents === null) return null;
    squares += ((interval95Cents[1] - interval95Cents[0]) / 2) ** 2;
  }
  const count = changes.length;
  // For many: pi / 2 over their number.
  const half = Math.sqrt((squares / count) * (MEDIAN_VARIANCES[count - 1] ?? Math.PI / 2 / count));
  return [middle - half, middle + half];
}

/** Null where it can't be told. */
function isShown(cents: number | null, interval: Interval | null): boolean | null {
  if (cents === null || interval === null) return null;
  return Math.abs(cents) >= LEAST_CENTS && (interval[0] > 0 || interval[1] < 0);
}

function verdictOf(moved: boolean | null, others: boolean | null, own: boolean | null): ChangeVerdict {
  if (moved === null) return "unsure";
  if (!moved) return own && others ? "apart" : "stood";
  if (own === null || others === null) return "unclear";
  if (others) return own ? "both" : "with-others";
  return own ? "alone" : "unclear";
}
