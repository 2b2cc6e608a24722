import { slopeWithin } from "../statistics/slopeWithin.js";
import type { TrendReading } from "./HistoryReading.js";

/** A value of pitch, beside what it may go with. Points of one stretch share a level. */
export interface TrendPoint {
  readonly x: number;
  readonly cents: number;
  readonly stretch: number;
}

/** A line through three takes is no more than a guess. */
const LEAST_FREEDOM = 2;
/** The log rounds frequencies to about as much; what scatters less does not scatter. */
const LEAST_SCATTER_CENTS = 1e-4;

/**
 * The straight line that cents follow, each stretch with a level of its own.
 *
 * @param leastTakes - points to ask for, besides two more than the line and the levels take
 */
export function trendOf(points: readonly TrendPoint[], leastTakes = 0): TrendReading {
  const takeCount = points.length;
  if (takeCount < leastTakes) return { trend: null, takeCount, lacking: "too-few" };
  const groups = new Map<number, { x: number[]; y: number[] }>();
  for (const { x, cents, stretch } of points) {
    const group = groups.get(stretch) ?? { x: [], y: [] };
    group.x.push(x);
    group.y.push(cents);
    groups.set(stretch, group);
  }
  const found = slopeWithin([...groups.values()], LEAST_FREEDOM);
  if (typeof found === "string") return { trend: null, takeCount, lacking: found };
  if (found.residualDeviation < LEAST_SCATTER_CENTS) return { trend: null, takeCount, lacking: "no-scatter" };
  return { trend: { slope: found.slope, interval95: found.interval95, takeCount }, takeCount, lacking: null };
}
