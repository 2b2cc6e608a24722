import type { ComparedSide, ComparisonFinding } from "./Comparison.js";
import type { TakeMeasures } from "./takeMeasures.js";

/** Sides on which no body curve could be had of some take, and sides whose body reaches lower than was played. */
export function curveFindings(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
): ComparisonFinding[] {
  return [...sides.flatMap(({ name }, i) => refusals(name, perSide[i])), ...reachFindings(sides, perSide)];
}

function refusals(side: string, takes: readonly TakeMeasures[]): ComparisonFinding[] {
  const refused = takes.flatMap(({ bodyCurve }) => (bodyCurve.status === "refused" ? [bodyCurve] : []));
  if (refused.length === 0) return [];
  const { reason, groups } = refused[0];
  const values = {
    side,
    takeCount: refused.length,
    reason,
    groups: groups.map((group) => group.join(" + ")).join("; "),
  };
  return [{ code: "no-body-curve", severity: "info", values }];
}

/** One finding for the sides of which it holds in all takes, one for those of which it holds in some. */
function reachFindings(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
): ComparisonFinding[] {
  const found = sides.flatMap(({ name }, i) => {
    const lowest = perSide[i].flatMap(({ bodyCurve }) =>
      bodyCurve.status === "fitted" && bodyCurve.lowReach?.isAtOrBelow ? [bodyCurve.lowReach.lowReachHz] : [],
    );
    return lowest.length === 0 ? [] : [{ name, lowest, isAll: lowest.length === perSide[i].length }];
  });
  return [true, false].flatMap((all): ComparisonFinding[] => {
    const own = found.filter(({ isAll }) => isAll === all);
    if (own.length === 0) return [];
    const values = {
      sides: own.map(({ name }) => name).join(", "),
      frequencyHz: Math.max(...own.flatMap(({ lowest }) => lowest)),
      reason: all ? "all-takes" : "some-takes",
    };
    return [{ code: "reach-below-lowest", severity: "info", values }];
  });
}
