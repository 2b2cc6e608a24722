import { tQuantile } from "./tQuantile.js";

/** Points of one group: all groups share the slope, each has its own level. */
export interface SlopeGroup {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** A slope with its 95 % interval. */
export interface Slope {
  readonly slope: number;
  readonly standardError: number;
  /** Standard deviation of what the lines leave, with the degrees of freedom below. */
  readonly residualDeviation: number;
  /** Points less groups less one. */
  readonly degreesOfFreedom: number;
  readonly interval95: readonly [number, number];
}

/** Why there is no slope: too few points over groups, x that does not differ within a group, y that lie on lines exactly. */
export type SlopeLack = "too-few" | "no-range" | "no-scatter";

/** What differs by less than this share of its size differs by rounding. */
const ROUNDING = 64 * Number.EPSILON;

/**
 * Least-squares slope that groups of points share, each group with its own level, and its interval by Student's t (analysis
 * of covariance; one group is the plain straight line). The scatter about the lines is taken as independent and alike.
 *
 * @param leastFreedom - degrees of freedom to ask for, 1 or more
 */
export function slopeWithin(groups: readonly SlopeGroup[], leastFreedom = 1): Slope | SlopeLack {
  const used = groups.filter(({ x }) => x.length > 0);
  const count = used.reduce((sum, { x }) => sum + x.length, 0);
  const degreesOfFreedom = count - used.length - 1;
  if (degreesOfFreedom < leastFreedom) return "too-few";
  const centred = used.map(({ x, y }) => ({ x: aboutMean(x), y: aboutMean(y) }));
  const squaresX = sumOf(centred, (x) => x * x);
  const largestX = largestOf(used.map(({ x }) => x));
  if (Math.sqrt(squaresX) <= ROUNDING * largestX) return "no-range";
  const slope = sumOf(centred, (x, y) => x * y) / squaresX;
  const residualDeviation = Math.sqrt(sumOf(centred, (x, y) => (y - slope * x) ** 2) / degreesOfFreedom);
  const largestY = largestOf(used.map(({ y }) => y));
  if (residualDeviation <= ROUNDING * largestY) return "no-scatter";
  const standardError = residualDeviation / Math.sqrt(squaresX);
  const half = standardError * tQuantile(0.975, degreesOfFreedom);
  return {
    slope,
    standardError,
    residualDeviation,
    degreesOfFreedom,
    interval95: [slope - half, slope + half],
  };
}

function aboutMean(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function largestOf(lists: readonly (readonly number[])[]): number {
  return lists.flat().reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
}

function sumOf(groups: readonly SlopeGroup[], term: (x: number, y: number) => number): number {
  let sum = 0;
  for (const { x, y } of groups) for (let i = 0; i < x.length; i++) sum += term(x[i]!, y[i]!);
  return sum;
}
