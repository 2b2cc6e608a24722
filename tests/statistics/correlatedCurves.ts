import type { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** How invented curves scatter from take to take. */
export interface CurveKind {
  readonly count: number;
  readonly points: number;
  readonly correlation: number;
  /** `alike`: the same between all points; `neighbours`: to the power of their distance. */
  readonly kind: "alike" | "neighbours";
  readonly sd: number;
}

/** Curves about 0, one a take. Every second point scatters twice as much as the others. */
export function curvesOf(
  { count, points, correlation, kind, sd }: CurveKind,
  random: SeededRandom,
): number[][] {
  return Array.from({ length: count }, () => {
    let before = random.normal();
    const shared = before;
    return Array.from({ length: points }, (_, k) => {
      const size = sd * (1 + (k % 2));
      if (kind === "alike")
        return size * (Math.sqrt(correlation) * shared + Math.sqrt(1 - correlation) * random.normal());
      if (k > 0) before = correlation * before + Math.sqrt(1 - correlation ** 2) * random.normal();
      return size * before;
    });
  });
}
