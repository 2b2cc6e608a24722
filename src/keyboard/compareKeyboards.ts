import { median } from "../signal/median.js";
import type { KeyboardReading } from "./KeyboardReading.js";

/** One key that stops two strings. */
export interface KeyDifference {
  readonly key: number;
  readonly deviationCents: number;
  readonly otherDeviationCents: number;
  /** The first string's less the other's. */
  readonly differenceCents: number;
  readonly interval95Cents: readonly [number, number];
  /** True where the two tangents do not stand alike, what all keys have in common taken off. */
  readonly disagrees: boolean;
}

/** Two strings stopped by the same keys. */
export interface KeyboardComparison {
  /** Median of the differences: of the strings as wholes, not of single tangents; 0 for few keys. */
  readonly commonCents: number;
  readonly keys: readonly KeyDifference[];
}

/** Two tangents that differ by less are alike (our policy). */
const LEAST_CENTS = 3;
const LEAST_KEYS = 5;

/** Where the tangents of two strings that the same keys stop disagree: each key counted from its own open string. */
export function compareKeyboards(a: KeyboardReading, b: KeyboardReading): KeyboardComparison {
  const both = a.keys.flatMap((one) => {
    const other = b.keys.find(({ key }) => key === one.key);
    if (other === undefined) return [];
    const differenceCents = one.deviationCents - other.deviationCents;
    const halfOf = ([low, high]: readonly [number, number]) => (high - low) / 2;
    const half = Math.hypot(halfOf(one.interval95Cents), halfOf(other.interval95Cents));
    return [{ one, other, differenceCents, half }];
  });
  const commonCents =
    both.length < LEAST_KEYS ? 0 : median(Float64Array.from(both, ({ differenceCents }) => differenceCents));
  return {
    commonCents,
    keys: both.map(({ one, other, differenceCents, half }) => ({
      key: one.key,
      deviationCents: one.deviationCents,
      otherDeviationCents: other.deviationCents,
      differenceCents,
      interval95Cents: [differenceCents - half, differenceCents + half],
      disagrees: Math.abs(differenceCents - commonCents) >= Math.max(LEAST_CENTS, half),
    })),
  };
}
