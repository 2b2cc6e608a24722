import { burgFilter } from "../statistics/burgFilter.js";
import { type FollowedTurns, followTurns } from "./followTurns.js";
import { rateMap, type WhiteSeries } from "./rateMap.js";
import { ridgePath } from "./ridgePath.js";
import { trendColumns } from "./swingColumns.js";
import type { TurnPath } from "./turnPath.js";
import { filtered, restOf, whitenedFit } from "./whitenedFit.js";

/** The strongest line that keeps time through all series. */
export interface TurnLine {
  readonly followed: FollowedTurns;
  readonly rateSpread: number;
  /** ln of how much likelier the series are with the line than without it, the freedom of its path taken off. */
  readonly gain: number;
}

/** How evenly a crank is turned: very, usually, hardly. */
const RATE_SPREADS = [0.005, 0.02, 0.05];
const SEARCH_SPREAD = 0.04;
const WINDOW_SECONDS = 2.5;
const HOP_SECONDS = 0.25;
const GRID_HZ = 0.04;
/** Of windows that overlap, one adds this share of a whole one: hop over length, and what the Hann shape leaves out. */
const INDEPENDENCE = (HOP_SECONDS / WINDOW_SECONDS) * 2;
/** In fewer turns slow wander passes for a line. */
const LEAST_TURNS = 4;
const SEARCH_ROUNDS = 4;
const ROUNDS = 8;

/**
 * Finds the line that all series of pitch and level share at one rate, wandering as a crank does.
 *
 * The gain compares both cases with the background (the autoregression) of what the line leaves; the background of the
 * whole series would take a strong line for part of it.
 *
 * @param ranges - of rates in hertz, searched one after the other
 */
export function findTurnLine(
  series: readonly Float64Array[],
  stepSeconds: number,
  ranges: readonly (readonly [number, number])[],
): TurnLine | null {
  const count = series[0]?.length ?? 0;
  const trend = trendColumns(count);
  const plain = series.map((values) => {
    const fit = whitenedFit(values, trend, Float64Array.of(1));
    return fit === null ? null : restOf(values, trend, fit.coefficients);
  });
  if (!plain.every((rest) => rest !== null)) return null;
  const search = (white: readonly WhiteSeries[], range: readonly [number, number]) =>
    starts(white, stepSeconds, range, count).flatMap((start) => {
      const followed = followTurns(series, stepSeconds, start, [1], SEARCH_SPREAD, SEARCH_ROUNDS);
      if (followed === null || !isWithin(followed.path, range)) return [];
      return [{ followed, rateSpread: SEARCH_SPREAD, gain: gainOf(plain, followed) }];
    });
  const slowestHz = LEAST_TURNS / (count * stepSeconds);
  const reachable = ranges.flatMap(([low, high]) =>
    high > slowestHz ? [[Math.max(low, slowestHz), high] as const] : [],
  );
  const lines = reachable.flatMap((range) => {
    const first = strongest(search(plain.map(firstWhite), range));
    // A strong line colours the background: the second look goes by what the first one leaves.
    if (first === null) return [];
    const white = plain.map((values, i) => {
      const { filter, variance } = first.followed.fits[i];
      return { values, filter, variance };
    });
    return [first, ...search(white, range)];
  });
  const found = strongest(lines);
  if (found === null) return null;
  const settled = RATE_SPREADS.flatMap((rateSpread) => {
    const followed = followTurns(series, stepSeconds, found.followed.path, [1], rateSpread, ROUNDS);
    return followed === null ? [] : [{ followed, rateSpread, gain: gainOf(plain, followed) }];
  });
  return strongest(settled);
}

function strongest(lines: readonly TurnLine[]): TurnLine | null {
  return lines.reduce<TurnLine | null>((a, b) => (a === null || b.gain > a.gain ? b : a), null);
}

function gainOf(plain: readonly Float64Array[], { fits, evidence }: FollowedTurns): number {
  const without = plain.map((values, i) => {
    const fit = whitenedFit(values, trendColumns(values.length), fits[i].filter);
    return fit?.logLikelihood ?? Number.POSITIVE_INFINITY;
  });
  return evidence - without.reduce((sum, value) => sum + value, 0);
}

/** An autoregression of order 1 has no peak of its own: a line stays in. */
function firstWhite(values: Float64Array): WhiteSeries {
  const filter = burgFilter(values, 1);
  const white = filtered(values, filter);
  const variance = white.reduce((sum, value) => sum + value * value, 0) / white.length;
  return { values, filter, variance: Math.max(variance, 1e-18) };
}

function isWithin({ meanRateHz }: TurnPath, [low, high]: readonly [number, number]): boolean {
  return meanRateHz >= 0.97 * low && meanRateHz <= 1.03 * high;
}

function starts(
  white: readonly WhiteSeries[],
  stepSeconds: number,
  range: readonly [number, number],
  count: number,
): TurnPath[] {
  const duration = count * stepSeconds;
  const windows = rateMap(white, stepSeconds, WINDOW_SECONDS, HOP_SECONDS, range, GRID_HZ);
  const whole = rateMap(white, stepSeconds, duration, duration, range, 0.25 / duration);
  return [
    ridgePath(windows, INDEPENDENCE, SEARCH_SPREAD, count, stepSeconds),
    ridgePath(whole, 1, SEARCH_SPREAD, count, stepSeconds),
  ].flatMap((path) => path ?? []);
}
