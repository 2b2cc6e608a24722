import { cents } from "../units/cents.js";
import { nearRatio } from "./nearRatio.js";
import type { PairReading, StringReading } from "./StringReading.js";

/**
 * Pairs of strings near a small-integer ratio, from the pitch that each had alone: how far from pure, and how fast they
 * would beat at their lowest common partial if they sounded together at these pitches.
 */
export function pairsInTurn(strings: readonly StringReading[]): PairReading[] {
  const heard = strings
    .filter((string) => string.frequencyHz !== null)
    .map((string) => ({ ...string, frequencyHz: string.frequencyHz ?? 0 }))
    .sort((a, b) => a.frequencyHz - b.frequencyHz);
  return heard.flatMap((lower, i) =>
    heard.slice(i + 1).flatMap((upper) => {
      const ratio = nearRatio(lower.frequencyHz, upper.frequencyHz);
      if (ratio === null) return [];
      const [p, q] = ratio;
      const centsFromPure = cents((upper.frequencyHz * q) / p, lower.frequencyHz);
      return [
        {
          lower: lower.name,
          upper: upper.name,
          ratio: `${p}:${q}`,
          basis: "in-turn" as const,
          centsFromPure,
          interval95Cents: differenceInterval(centsFromPure, lower, upper),
          beatsPerSecond: Math.abs(p * lower.frequencyHz - q * upper.frequencyHz),
        },
      ];
    }),
  );
}

/** The two readings are independent: their half widths add as squares. */
function differenceInterval(
  centsFromPure: number,
  lower: StringReading,
  upper: StringReading,
): readonly [number, number] | null {
  const a = lower.interval95Cents;
  const b = upper.interval95Cents;
  if (a === null || b === null || lower.deviationCents === null || upper.deviationCents === null) return null;
  const middle =
    centsFromPure + ((b[0] + b[1]) / 2 - upper.deviationCents) - ((a[0] + a[1]) / 2 - lower.deviationCents);
  const half = Math.hypot((a[1] - a[0]) / 2, (b[1] - b[0]) / 2);
  return [middle - half, middle + half];
}
