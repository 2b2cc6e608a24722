import { largestDeviation } from "./largestDeviation.js";
import { sampleSpread } from "./sampleSpread.js";

/** The difference of two curves, each known from a few takes, with one band for all its points together. */
export interface SimultaneousBand {
  /** Mean of a minus mean of b, a value a point; null where a side has no take. */
  readonly difference: readonly number[] | null;
  /** Holds the whole true curve at the confidence asked for; null at a point where the takes don't differ at all. */
  readonly interval: readonly (readonly [number, number] | null)[] | null;
  /** Half the band's width in standard errors of a point. */
  readonly criticalValue: number | null;
  /** Estimated correlation between the points of one take's curve, 0 to 1. */
  readonly correlation: number | null;
  readonly lacking: "too-few" | "no-spread" | null;
}

/** How the band is made. */
export interface BandOptions {
  /** Default 0.95. */
  readonly confidence?: number;
  /** Of the drawn curves; the same seed gives the same band. */
  readonly seed?: number;
  /** How many curves are drawn; 4000 hold the confidence to within 0.4 %. */
  readonly draws?: number;
}

type Curve = readonly number[];

/**
 * A simultaneous band for the difference of two curves: studentised maximum, by simulation with the takes' own scatter.
 *
 * At each point Welch's standard error; one critical value for all, the quantile of the largest studentised deviation. That
 * depends on how the points hang together, and of few takes (residual degrees of freedom df below the number of points) no
 * correlation matrix can be had. One number stands for it: the correlation r with r^2 the mean square of all pairs' correlations,
 * less what chance alone gives, (1 - r^2) / df. Simulated coverage of 95 % bands at 3 to 8 takes a side, 8 and 18 points,
 * correlation 0 to 0.9 alike everywhere or falling off with distance: 93 to 98 %, each from 600 trials. Six other ways to estimate the correlation
 * (whole matrix shrunk, mean by distance, ...) came out no better, and resampling of 3 takes can't reach 95 %.
 * If the sides scatter differently, one common ratio of their variances over all points is reckoned with.
 *
 * @param curvesA - one curve a take, all of one length: only points that every take of both sides has
 */
export function simultaneousBand(
  curvesA: readonly Curve[],
  curvesB: readonly Curve[],
  { confidence = 0.95, seed = 20_260, draws = 4000 }: BandOptions = {},
): SimultaneousBand {
  const nothing = { difference: null, interval: null, criticalValue: null, correlation: null };
  if (curvesA.length === 0 || curvesB.length === 0) return { ...nothing, lacking: "too-few" };
  const spreadA = curvesA[0].map((_, k) => sampleSpread(curvesA.map((curve) => curve[k])));
  const spreadB = curvesA[0].map((_, k) => sampleSpread(curvesB.map((curve) => curve[k])));
  const difference = spreadA.map(({ mean }, k) => mean! - spreadB[k].mean!);
  const freedomA = curvesA.length - 1;
  const freedomB = curvesB.length - 1;
  if (freedomA < 1 || freedomB < 1) return { ...nothing, difference, lacking: "too-few" };
  const sdA = spreadA.map(({ standardDeviation }) => standardDeviation!);
  const sdB = spreadB.map(({ standardDeviation }) => standardDeviation!);
  const error = sdA.map((sd, k) =>
    Math.hypot(sd / Math.sqrt(curvesA.length), sdB[k] / Math.sqrt(curvesB.length)),
  );
  const moving = error.flatMap((value, k) => (value > 0 ? [k] : []));
  if (moving.length === 0) return { ...nothing, difference, lacking: "no-spread" };
  const correlation = commonCorrelation(
    [
      ...residuals(
        curvesA,
        spreadA.map(({ mean }) => mean!),
      ),
      ...residuals(
        curvesB,
        spreadB.map(({ mean }) => mean!),
      ),
    ],
    moving,
    freedomA + freedomB,
  );
  const ratio = varianceRatio(
    moving.map((k) => [sdA[k], sdB[k]]),
    freedomA,
    freedomB,
  );
  const criticalValue = largestDeviation({
    pointCount: moving.length,
    correlation,
    freedomA,
    freedomB,
    shareA: 1 / (1 + curvesA.length / (ratio * curvesB.length)),
    confidence,
    draws,
    seed,
  });
  const interval = difference.map((value, k): [number, number] | null =>
    error[k] > 0 ? [value - criticalValue * error[k], value + criticalValue * error[k]] : null,
  );
  return { difference, interval, criticalValue, correlation, lacking: null };
}

/** Each take's curve less the mean of its side: what is left of chance. */
function residuals(curves: readonly Curve[], mean: Curve): number[][] {
  return curves.map((curve) => curve.map((value, k) => value - mean[k]));
}

/** See {@link simultaneousBand}: one correlation for all pairs of points. */
function commonCorrelation(rows: readonly Curve[], points: readonly number[], freedom: number): number {
  if (points.length < 2 || freedom < 2) return 0;
  const products = (j: number, k: number) => rows.reduce((sum, row) => sum + row[j] * row[k], 0);
  const sizes = new Map(points.map((k) => [k, products(k, k)]));
  let squares = 0;
  for (const [i, j] of points.entries())
    for (const k of points.slice(0, i)) squares += products(j, k) ** 2 / (sizes.get(j)! * sizes.get(k)!);
  const meanSquare = squares / ((points.length * (points.length - 1)) / 2);
  return Math.sqrt(Math.min(1, Math.max(0, (meanSquare - 1 / freedom) / (1 - 1 / freedom))));
}

/** Variance of side A over that of side B: the geometric mean over the points, less the bias that unequal counts give it. */
function varianceRatio(
  standardDeviations: readonly (readonly [number, number])[],
  freedomA: number,
  freedomB: number,
): number {
  const both = standardDeviations.filter(([a, b]) => a > 0 && b > 0);
  if (both.length === 0) return standardDeviations.some(([a]) => a > 0) ? Number.MAX_VALUE : 0;
  const mean = both.reduce((sum, [a, b]) => sum + 2 * Math.log(a / b), 0) / both.length;
  return Math.exp(mean - logVarianceBias(freedomA) + logVarianceBias(freedomB));
}

/** Mean of ln(s^2 / sigma^2): the digamma function at df / 2 less its logarithm (Abramowitz & Stegun 6.3.18, shifted by 6.3.5). */
function logVarianceBias(freedom: number): number {
  let x = freedom / 2;
  let digamma = 0;
  for (; x < 8; x++) digamma -= 1 / x;
  digamma += Math.log(x) - 1 / (2 * x) - 1 / (12 * x ** 2) + 1 / (120 * x ** 4) - 1 / (252 * x ** 6);
  return digamma - Math.log(freedom / 2);
}
