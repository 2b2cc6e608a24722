import type { BodyCurve } from "../body/bodyCurve.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";

/** A body curve as documents hold it; empty where there is none. */
export function bodyCurveFields(curve: BodyCurve | null | undefined) {
  const fitted = curve?.status === "fitted" ? curve : null;
  const lowReach = fitted?.lowReach ?? null;
  return {
    bodyCurve: (fitted?.points ?? []).map(({ frequencyHz, levelDb, interval95Db, partialCount }) => ({
      frequencyHz: roundedFinite(frequencyHz, 2),
      levelDb: rounded(levelDb, 2),
      interval95Db: roundedInterval(interval95Db, 2),
      partialCount,
    })),
    bodyCurveLacking: curve?.status === "refused" ? curve.reason : null,
    lowReachHz: rounded(lowReach?.lowReachHz ?? null, 1),
    lowReachIsAtOrBelow: lowReach?.isAtOrBelow ?? null,
    lowReachRange95Hz: roundedInterval(lowReach?.rangeHz ?? null, 1),
  };
}
