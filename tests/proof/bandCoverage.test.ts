import { beforeAll, describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { simultaneousBand } from "../../src/statistics/simultaneousBand.js";
import { type CurveKind, curvesOf } from "../statistics/correlatedCurves.js";

/**
 * Does the whole true difference curve lie within the band in 95 of 100 comparisons? Truth: curves about 0, so 0 at every point. Seeds
 * chosen before the first run of this file; the method was chosen on others.
 */
const SEED = 5_290_700;
const TRIALS = 300;
/** Fewer draws than by default, for speed: each band's own confidence then scatters by 1.3 points, and the mean by little. */
const DRAWS = 300;

type Case = readonly [
  countA: number,
  countB: number,
  correlation: number,
  kind: CurveKind["kind"],
  sdA: number,
];

const CASES: readonly Case[] = [3, 5, 8].flatMap((count): Case[] => [
  [count, count, 0, "alike", 1],
  [count, count, 0.5, "alike", 1],
  [count, count, 0.9, "alike", 1],
  [count, count, 0.9, "neighbours", 1],
  [count, count, 0.5, "alike", 2],
]);

function coverage([countA, countB, correlation, kind, sdA]: Case, seed: number): number {
  const random = new SeededRandom(seed);
  let inside = 0;
  for (let trial = 0; trial < TRIALS; trial++) {
    const a = curvesOf({ count: countA, points: 12, correlation, kind, sd: sdA }, random);
    const b = curvesOf({ count: countB, points: 12, correlation, kind, sd: 1 }, random);
    const { interval } = simultaneousBand(a, b, { draws: DRAWS, seed: seed + trial });
    if (interval!.every((ends) => ends![0] <= 0 && ends![1] >= 0)) inside++;
  }
  return inside / TRIALS;
}

describe("the simultaneous band of a difference curve", () => {
  const found = new Map<Case, number>();
  beforeAll(() => {
    for (const [i, one] of CASES.entries()) found.set(one, coverage(one, SEED + 1000 * i));
    const row = ([one, inside]: [Case, number]) => `${one.join(" ").padEnd(24)} ${(100 * inside).toFixed(1)}`;
    console.log([...found].map(row).join("\n"));
  }, 120_000);

  it("holds the true curve in 93 to 97 of 100 comparisons over all kinds", () => {
    // 4,500 cases: standard error 0.33 points; 3 of them about 95, so that 93 to 97 is met with certainty.
    const mean = [...found.values()].reduce((sum, inside) => sum + inside, 0) / found.size;
    expect(mean).toBeGreaterThan(0.94);
    expect(mean).toBeLessThan(0.966);
  });

  it.each(CASES.map((one) => [one] as const))("and so for each kind, within chance: %s", (one) => {
    // 300 cases: standard error 1.4 points at 93 and 1 at 97; 2.5 of them.
    expect(found.get(one)!).toBeGreaterThan(0.93 - 0.035);
    expect(found.get(one)!).toBeLessThan(0.97 + 0.025);
  });

  it("holds it too with 3 takes on one side and 8 on the other, that scatter alike or the 8 twice as much", () => {
    for (const [i, sdA] of [1, 2].entries())
      expect(coverage([8, 3, 0.5, "alike", sdA], SEED + 700_000 + 1000 * i)).toBeGreaterThan(0.93 - 0.035);
  });

  it("falls short by a few points where the 3 scatter twice as much as the 8", () => {
    // Three takes don't show their own scatter: 91 to 94 % while the method was chosen; less 2.5 standard errors of 1.6 points.
    // A pooled variance covers 83 %.
    expect(coverage([3, 8, 0.5, "alike", 2], SEED + 800_000)).toBeGreaterThan(0.88);
  });
});
