import { describe, expect, it } from "vitest";
import { largestDeviation } from "../../src/statistics/largestDeviation.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { simultaneousBand } from "../../src/statistics/simultaneousBand.js";
import { tQuantile } from "../../src/statistics/tQuantile.js";
import { curvesOf } from "./correlatedCurves.js";

const model = { freedomA: 4, freedomB: 4, shareA: 0.5, confidence: 0.95, draws: 40_000, seed: 90_001 };

// 40,000 draws: the quantile's confidence is off by 0.11 points (standard error); near t(8) that is about 1 % of the value at 4 of them.
describe("largestDeviation", () => {
  it("of one point is Student's t", () => {
    const found = largestDeviation({ ...model, pointCount: 1, correlation: 0 });
    expect(Math.abs(found / tQuantile(0.975, 8) - 1)).toBeLessThan(0.02);
  });

  it("of points that move as one is Student's t too", () => {
    const found = largestDeviation({ ...model, pointCount: 12, correlation: 1 });
    expect(Math.abs(found / tQuantile(0.975, 8) - 1)).toBeLessThan(0.02);
  });

  it("of independent points is Sidak's: each at 0.95^(1 / points)", () => {
    const found = largestDeviation({ ...model, pointCount: 10, correlation: 0 });
    expect(Math.abs(found / tQuantile((1 + 0.95 ** 0.1) / 2, 8) - 1)).toBeLessThan(0.03);
  });

  it("where one side has all the scatter has that side's degrees of freedom", () => {
    const found = largestDeviation({ ...model, pointCount: 1, correlation: 0, shareA: 1 });
    expect(Math.abs(found / tQuantile(0.975, 4) - 1)).toBeLessThan(0.025);
  });

  it("falls with the correlation and is the same for the same seed", () => {
    const at = (correlation: number) =>
      largestDeviation({ ...model, draws: 4000, pointCount: 12, correlation });
    expect(at(0)).toBeGreaterThan(at(0.6));
    expect(at(0.6)).toBeGreaterThan(at(0.95));
    expect(at(0.6)).toBe(at(0.6));
  });
});

describe("simultaneousBand", () => {
  const random = new SeededRandom(90_002);
  const sideA = curvesOf({ count: 5, points: 8, correlation: 0.5, kind: "alike", sd: 1 }, random);
  const sideB = curvesOf({ count: 4, points: 8, correlation: 0.5, kind: "alike", sd: 2 }, random);

  it("lies about the difference of the means, wider than each point's own interval would need", () => {
    const { difference, interval, criticalValue } = simultaneousBand(sideA, sideB);
    for (let k = 0; k < 8; k++) {
      const mean = (side: number[][]) => side.reduce((sum, curve) => sum + curve[k], 0) / side.length;
      expect(difference![k]).toBeCloseTo(mean(sideA) - mean(sideB), 12);
      expect((interval![k]![0] + interval![k]![1]) / 2).toBeCloseTo(difference![k], 10);
    }
    expect(criticalValue!).toBeGreaterThan(tQuantile(0.975, 7));
  });

  it("moves with the curves and scales with them, point by point", () => {
    const base = simultaneousBand(sideA, sideB);
    const scaled = simultaneousBand(
      sideA.map((curve) => curve.map((value, k) => (k + 1) * value + 5 * k)),
      sideB.map((curve) => curve.map((value, k) => (k + 1) * value)),
    );
    for (let k = 0; k < 8; k++)
      expect(scaled.interval![k]![1]).toBeCloseTo((k + 1) * base.interval![k]![1] + 5 * k, 8);
    expect(scaled.correlation).toBeCloseTo(base.correlation!, 10);
  });

  it("finds the correlation of many takes", () => {
    const of = (correlation: number) =>
      simultaneousBand(
        curvesOf({ count: 200, points: 8, correlation, kind: "alike", sd: 1 }, new SeededRandom(90_003)),
        curvesOf({ count: 200, points: 8, correlation, kind: "alike", sd: 1 }, new SeededRandom(90_004)),
        { draws: 100 },
      ).correlation!;
    // 398 degrees of freedom: a correlation of 0.7 has a standard error of (1 - 0.49) / 20 = 0.026 or less; at 0 the root of what is
    // left of the mean square by chance, 28 pairs of 1 / 398: below 0.04.
    expect(Math.abs(of(0.7) - 0.7)).toBeLessThan(0.08);
    expect(of(0)).toBeLessThan(0.06);
  });

  it("says as data what can't be had", () => {
    expect(simultaneousBand([], sideB)).toMatchObject({
      difference: null,
      interval: null,
      lacking: "too-few",
    });
    expect(
      simultaneousBand(
        [[1, 2]],
        [
          [0, 0],
          [1, 1],
        ],
      ),
    ).toMatchObject({
      difference: [0.5, 1.5],
      interval: null,
      lacking: "too-few",
    });
    expect(
      simultaneousBand(
        [
          [1, 2],
          [1, 2],
        ],
        [
          [0, 0],
          [0, 0],
        ],
      ),
    ).toMatchObject({
      difference: [1, 2],
      interval: null,
      lacking: "no-spread",
    });
    const oneStill = simultaneousBand(
      [
        [1, 2],
        [1, 3],
      ],
      [
        [0, 0],
        [0, 1],
      ],
    );
    expect(oneStill.interval![0]).toBeNull();
    expect(oneStill.interval![1]).not.toBeNull();
  });
});
