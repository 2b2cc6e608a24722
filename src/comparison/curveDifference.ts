import type { BodyCurve } from "../body/bodyCurve.js";
import { simultaneousBand } from "../statistics/simultaneousBand.js";
import type { CurveDifference } from "./Comparison.js";

/**
 * Difference of two sides' body curves at the bands that every take of both has, each take's curve relative to its own
 * median, with one simultaneous 95 % band. The band holds what more takes would show: the curves are pulled towards smooth, and where
 * few partials sample a band both sides' curves miss the same narrow peak, which the takes' scatter can't tell.
 *
 * @param curvesA - one a take
 * @returns empty where a take has no curve
 */
export function curveDifference(
  curvesA: readonly BodyCurve[],
  curvesB: readonly BodyCurve[],
): Omit<CurveDifference, "sideA" | "sideB">[] {
  const points = [...curvesA, ...curvesB].map((curve) => (curve.status === "fitted" ? curve.points : null));
  const [first] = points;
  if (first === null || first === undefined) return [];
  const shared = first.flatMap(({ frequencyHz }, band) =>
    points.every((one) => one !== null && one[band].levelDb !== null) ? [{ frequencyHz, band }] : [],
  );
  if (shared.length === 0) return [];
  const levels = points.map((one) => shared.map(({ band }) => one?.[band].levelDb ?? 0));
  const { difference, interval } = simultaneousBand(
    levels.slice(0, curvesA.length),
    levels.slice(curvesA.length),
  );
  if (difference === null) return [];
  return shared.map(({ frequencyHz }, i) => ({
    frequencyHz,
    differenceDb: difference[i],
    interval95Db: interval?.[i] ?? null,
  }));
}
