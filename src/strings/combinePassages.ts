import { cents } from "../units/cents.js";
import type { MeasuredPassage, PartialPower } from "./MeasuredPassage.js";

/** One string's passages taken together. */
export interface CombinedPassages {
  /** Mean over all its passages, each counting with its length. */
  readonly frequencyHz: number;
  /** Cents from that mean; null where too little of it could be given an interval. */
  readonly interval95Cents: readonly [number, number] | null;
  readonly unsteadinessCents: number | null;
  readonly partials: readonly PartialPower[];
  readonly noisePower: number | null;
  readonly frameCentroidHz: number | null;
  /** Largest distance between two passages; null for one passage. */
  readonly spreadCents: number | null;
}

const NORMAL_975 = 1.959964;

/**
 * Joins the passages of one string. Where they differ by more than their intervals explain, the interval is widened by
 * the root of the mean squared excess (the Birge ratio), as is usual for measurements that disagree.
 *
 * @param passages - at least one
 */
export function combinePassages(passages: readonly MeasuredPassage[]): CombinedPassages {
  const seconds = passages.map(({ startSeconds, endSeconds }) => endSeconds - startSeconds);
  const total = seconds.reduce((sum, value) => sum + value, 0);
  const mean = (of: (passage: MeasuredPassage) => number) =>
    passages.reduce((sum, passage, i) => sum + (of(passage) * seconds[i]) / total, 0);
  const firstHz = passages[0].frequencyHz;
  const meanCents = mean(({ frequencyHz }) => cents(frequencyHz, firstHz));
  const frequencyHz = firstHz * 2 ** (meanCents / 1200);
  const away = passages.map((passage) => cents(passage.frequencyHz, frequencyHz));
  return {
    frequencyHz,
    interval95Cents: joinedInterval(passages, seconds, away),
    unsteadinessCents: passages.some(({ steadiness }) => steadiness.unsteadinessCents === null)
      ? null
      : Math.sqrt(mean(({ steadiness }) => (steadiness.unsteadinessCents ?? 0) ** 2)),
    partials: joinedPartials(passages, seconds),
    noisePower: passages.some(({ noisePower }) => noisePower === null)
      ? null
      : mean(({ noisePower }) => noisePower ?? 0),
    frameCentroidHz: passages.some((passage) => passage.frameCentroidHz === null)
      ? null
      : mean((passage) => passage.frameCentroidHz ?? 0),
    spreadCents: passages.length > 1 ? Math.max(...away) - Math.min(...away) : null,
  };
}

function joinedInterval(
  passages: readonly MeasuredPassage[],
  seconds: readonly number[],
  away: readonly number[],
): readonly [number, number] | null {
  const known = passages.flatMap(({ steadiness }, i) =>
    steadiness.interval95Cents === null
      ? []
      : [
          {
            seconds: seconds[i],
            middle: away[i] + (steadiness.interval95Cents[0] + steadiness.interval95Cents[1]) / 2,
            error: (steadiness.interval95Cents[1] - steadiness.interval95Cents[0]) / 2 / NORMAL_975,
          },
        ],
  );
  const knownSeconds = known.reduce((sum, one) => sum + one.seconds, 0);
  if (knownSeconds < 0.5 * seconds.reduce((sum, value) => sum + value, 0)) return null;
  const middle = known.reduce((sum, one) => sum + (one.middle * one.seconds) / knownSeconds, 0);
  const variance = known.reduce((sum, one) => sum + (one.error * (one.seconds / knownSeconds)) ** 2, 0);
  const excess = known.reduce(
    (sum, one) => sum + ((one.middle - middle) / Math.max(one.error, 1e-9)) ** 2,
    0,
  );
  const birge = known.length > 1 ? Math.max(1, excess / (known.length - 1)) : 1;
  const half = NORMAL_975 * Math.sqrt(variance * birge);
  return [middle - half, middle + half];
}

function joinedPartials(passages: readonly MeasuredPassage[], seconds: readonly number[]): PartialPower[] {
  const count = Math.min(...passages.map(({ partials }) => partials.length));
  return Array.from({ length: count }, (_, n) => {
    // A passage in which the partial was shared says nothing of its power.
    const told = passages.flatMap(({ partials }, i) =>
      partials[n].shared ? [] : [{ partial: partials[n], seconds: seconds[i] }],
    );
    const total = told.reduce((sum, one) => sum + one.seconds, 0);
    if (total === 0) return { number: n + 1, power: 0, signalToNoise: null, shared: true };
    const known = told.every(({ partial }) => partial.signalToNoise !== null);
    return {
      number: n + 1,
      power: told.reduce((sum, one) => sum + (one.partial.power * one.seconds) / total, 0),
      signalToNoise: known
        ? told.reduce((sum, one) => sum + ((one.partial.signalToNoise ?? 0) * one.seconds) / total, 0)
        : null,
      shared: false,
    };
  });
}
