import { burgFilter } from "../statistics/burgFilter.js";
import { type FollowedTurns, followTurns } from "./followTurns.js";
import { rateMap, type WhiteSeries } from "./rateMap.js";
import { ridgePath } from "./ridgePath.js";
import { trendColumns } from "./trendColumns.js";
import { rateSpreadOf, type TurnPath } from "./turnPath.js";
import { FILTER_ORDER, filtered, restOf, whitenedFit } from "./whitenedFit.js";

/** The strongest line that keeps time through all series. */
export interface TurnLine {
  readonly followed: FollowedTurns;
  readonly rateSpread: number;
  /** ln of how much likelier the series are with the line than without it, the freedom of its path taken off. */
  readonly gain: number;
  /** The series with their slow trend taken out. */
  readonly plain: readonly Float64Array[];
}

/** How evenly a crank is turned: very, usually, hardly. */
const RATE_SPREADS = [0.005, 0.02, 0.05];
const EVENED_OUT = 1.5;
const SEARCH_SPREAD = 0.04;
const WINDOW_SECONDS = 2.5;
const HOP_SECONDS = 0.5;
const GRID_HZ = 0.04;
/** Of windows that overlap, one adds this share of a whole one: hop over length, and what the Hann shape leaves out. */
const INDEPENDENCE = (HOP_SECONDS / WINDOW_SECONDS) * 2;
/** A line with this gain a series is the wheel beyond doubt (chance: under one in a million), and needs no second look. */
const CLEAR_GAIN = 25;
/** In fewer turns slow wander passes for a line. */
const LEAST_TURNS = 4;

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
    const fit = whitenedFit(values, trend, undefined, 0);
    return fit === null ? null : restOf(values, trend, fit.coefficients);
  });
  if (!plain.every((rest) => rest !== null)) return null;
  const follow = (start: TurnPath, rateSpread: number, order: number): TurnLine[] => {
    const followed = followTurns(plain, stepSeconds, start, [1], rateSpread, order);
    return followed === null ? [] : [{ followed, rateSpread, gain: gainOf(plain, followed), plain }];
  };
  const slowestHz = LEAST_TURNS / (count * stepSeconds);
  const lines: TurnLine[] = [];
  const isClear = () => lines.some(({ gain }) => gain > CLEAR_GAIN * series.length);
  for (const [low, high] of ranges) {
    const range = [Math.max(low, slowestHz), high] as const;
    const search = (white: readonly WhiteSeries[], start: typeof ridgeStart) => {
      const found = start(white, stepSeconds, range, count);
      const followed = found === null ? [] : follow(found, SEARCH_SPREAD, 1);
      lines.push(...followed.filter(({ followed: { path } }) => isWithin(path, range)));
    };
    const first = plain.map(firstWhite);
    search(first, ridgeStart);
    if (isClear()) continue;
    search(first, evenStart);
    const best = strongest(lines);
    if (best === null || isClear()) continue;
    // A line colours the background: the second look goes by what the first one leaves.
    const second = plain.map((values, i) => {
      const { filter, variance } = best.followed.fits[i];
      return { values, filter, variance };
    });
    search(second, ridgeStart);
    search(second, evenStart);
  }
  const found = strongest(lines);
  if (found === null) return null;
  const spreads = isClear() ? [likeliestSpread(found.followed.path)] : RATE_SPREADS;
  return strongest(spreads.flatMap((rateSpread) => follow(found.followed.path, rateSpread, FILTER_ORDER)));
}

/** Of the spreads tried, the next above that of a path; the prior has evened the path out. */
function likeliestSpread(path: TurnPath): number {
  const likely = EVENED_OUT * rateSpreadOf(path);
  return RATE_SPREADS.find((spread) => spread >= likely) ?? RATE_SPREADS[RATE_SPREADS.length - 1];
}

function strongest(lines: readonly TurnLine[]): TurnLine | null {
  return lines.reduce<TurnLine | null>((a, b) => (a === null || b.gain > a.gain ? b : a), null);
}

function gainOf(plain: readonly Float64Array[], { fits, evidence }: FollowedTurns): number {
  return plain.reduce((sum, values, i) => {
    const white = filtered(values, fits[i].filter);
    return sum + 0.5 * white.length * Math.log(Math.max(meanSquare(white), 1e-18));
  }, evidence);
}

function meanSquare(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value * value, 0) / values.length;
}

/** An autoregression of order 1 has no peak of its own: a line stays in. */
function firstWhite(values: Float64Array): WhiteSeries {
  const filter = burgFilter(values, 1);
  const white = filtered(values, filter);
  return { values, filter, variance: Math.max(meanSquare(white), 1e-18) };
}

function isWithin({ meanRateHz }: TurnPath, [low, high]: readonly [number, number]): boolean {
  return meanRateHz >= 0.97 * low && meanRateHz <= 1.03 * high;
}

function ridgeStart(
  white: readonly WhiteSeries[],
  stepSeconds: number,
  range: readonly [number, number],
  count: number,
): TurnPath | null {
  const map = rateMap(white, stepSeconds, WINDOW_SECONDS, HOP_SECONDS, range, GRID_HZ);
  return ridgePath(map, INDEPENDENCE, SEARCH_SPREAD, count, stepSeconds);
}

/** The strongest even rate. */
function evenStart(
  white: readonly WhiteSeries[],
  stepSeconds: number,
  range: readonly [number, number],
  count: number,
): TurnPath | null {
  const duration = count * stepSeconds;
  const map = rateMap(white, stepSeconds, duration, duration, range, 0.25 / duration);
  return ridgePath(map, 1, SEARCH_SPREAD, count, stepSeconds);
}
