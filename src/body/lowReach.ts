import { REFERENCE_RANGE_HZ } from "./bodyPolicy.js";

/** How low a body still carries. */
export interface LowReach {
  /** Going down from 355 Hz, the last frequency still within 10 dB of the median. */
  readonly lowReachHz: number;
  /** True where even the lowest partial passes: the reach is at this frequency or below. */
  readonly isAtOrBelow: boolean;
  /**
   * The same of the upper and of the lower ends of the curve's 95 % interval. Its lower number is the lowest partial where that
   * end never falls below; its upper is 355 Hz where that end is too low from the start.
   */
  readonly rangeHz: readonly [number, number];
}

/** A point of the curve; those without level are passed over. */
export interface ReachPoint {
  readonly frequencyHz: number;
  readonly levelDb: number | null;
  readonly interval95Db: readonly [number, number] | null;
}

/** Our policy, after the 10 dB within which good violins keep from 250 Hz to 4 kHz (Buen 2003). */
const WITHIN_DB = 10;

/**
 * Going down the curve from 355 Hz, where it first falls more than 10 dB under the median; between points by a straight line in dB
 * over log frequency.
 *
 * @param lowestPartialHz - below it nothing was heard
 * @returns null where the curve is that low at 355 Hz already, or has no point on either side of it
 */
export function lowReach(points: readonly ReachPoint[], lowestPartialHz: number): LowReach | null {
  const reach = crossing(points, ({ levelDb }) => levelDb, lowestPartialHz);
  if (reach === null) return null;
  const ofUpper = crossing(points, ({ interval95Db }) => interval95Db?.[1] ?? null, lowestPartialHz);
  const ofLower = crossing(points, ({ interval95Db }) => interval95Db?.[0] ?? null, lowestPartialHz);
  return {
    lowReachHz: reach.frequencyHz,
    isAtOrBelow: reach.isAtOrBelow,
    rangeHz: [ofUpper?.frequencyHz ?? lowestPartialHz, ofLower?.frequencyHz ?? REFERENCE_RANGE_HZ.from],
  };
}

function crossing(
  points: readonly ReachPoint[],
  level: (point: ReachPoint) => number | null,
  lowestPartialHz: number,
): { frequencyHz: number; isAtOrBelow: boolean } | null {
  const known = points
    .flatMap((point) => {
      const levelDb = level(point);
      return levelDb === null ? [] : [{ at: Math.log2(point.frequencyHz), levelDb }];
    })
    .sort((a, b) => b.at - a.at);
  const start = Math.log2(REFERENCE_RANGE_HZ.from);
  const below = known.filter(({ at }) => at < start);
  const above = known[known.length - below.length - 1];
  if (above === undefined || below.length === 0) return null;
  const slope = (above.levelDb - below[0].levelDb) / (above.at - below[0].at);
  let last = { at: start, levelDb: below[0].levelDb + slope * (start - below[0].at) };
  if (last.levelDb < -WITHIN_DB) return null;
  for (const point of below) {
    if (point.levelDb < -WITHIN_DB) {
      const share = (last.levelDb + WITHIN_DB) / (last.levelDb - point.levelDb);
      return { frequencyHz: 2 ** (last.at + share * (point.at - last.at)), isAtOrBelow: false };
    }
    last = point;
  }
  return { frequencyHz: lowestPartialHz, isAtOrBelow: true };
}
