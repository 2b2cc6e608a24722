import { cents } from "../units/cents.js";
import { differenceInterval } from "./differenceInterval.js";
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
          interval95Cents: intervalFromPure(centsFromPure, lower, upper),
          beatsPerSecond: Math.abs(p * lower.frequencyHz - q * upper.frequencyHz),
        },
      ];
    }),
  );
}

/** The interval of the difference of deviations, moved to where pure is zero. */
function intervalFromPure(
  centsFromPure: number,
  lower: StringReading,
  upper: StringReading,
): readonly [number, number] | null {
  const a = lower.interval95Cents;
  const b = upper.interval95Cents;
  if (a === null || b === null || lower.deviationCents === null || upper.deviationCents === null) return null;
  const difference = differenceInterval(b, a);
  const shift = centsFromPure - (upper.deviationCents - lower.deviationCents);
  return [difference[0] + shift, difference[1] + shift];
}
