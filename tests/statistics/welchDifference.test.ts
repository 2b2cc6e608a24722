import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { welchDifference } from "../../src/statistics/welchDifference.js";

const A = [78.1, 78.9, 77.6, 78.4, 78.2];
const B = [79.6, 80.3, 79.1, 80.0, 79.9];

describe("welchDifference", () => {
  it("gives the worked example", () => {
    // Computed by hand from the formulas of Welch 1947 and Satterthwaite 1946: means 78.24 and 79.78, sums of squares 0.892 and
    // 0.828; p and the quantile 2.30671 of t with 7.98894 degrees of freedom by an independent statistics library. All to the
    // digits given.
    const found = welchDifference(B, A);
    expect(found.difference).toBeCloseTo(1.54, 10);
    expect(found.standardError).toBeCloseTo(0.293258, 6);
    expect(found.degreesOfFreedom).toBeCloseTo(7.98894, 5);
    expect(found.t).toBeCloseTo(5.25136, 5);
    expect(found.p).toBeCloseTo(0.000776, 6);
    expect(found.interval![0]).toBeCloseTo(0.86358, 5);
    expect(found.interval![1]).toBeCloseTo(2.21642, 5);
    expect(found.lacking).toBeNull();
    expect(found.a.standardDeviation! ** 2).toBeCloseTo(0.828 / 4, 10);
  });

  it("with a side that does not scatter is the t interval of the other", () => {
    // By arithmetic: sd of 1, 2, 3 is 1; t(0.975, 2) = 4.303 (published table, three decimals).
    const found = welchDifference([1, 2, 3], [5, 5, 5, 5]);
    expect(found.degreesOfFreedom).toBeCloseTo(2, 10);
    expect(Math.abs(found.interval![1] - (-3 + 4.303 / Math.sqrt(3)))).toBeLessThan(0.0005);
  });

  it("agrees with the closed form of p at two degrees of freedom", () => {
    // t with 2 degrees of freedom: P(|T| > t) = 1 - t / sqrt(2 + t^2), exact. At t = 1000 that is 1e-6.
    for (const difference of [0.1, 1, 10, 577.35]) {
      const { t, p } = welchDifference([difference - 1, difference, difference + 1], [0, 0]);
      // 1 - t / sqrt(2 + t^2) without cancellation. The package's continued fraction stops at a change of 3e-7.
      const root = Math.sqrt(2 + t! * t!);
      expect(p! / (2 / (root * (root + t!)))).toBeCloseTo(1, 6);
    }
  });

  it("says as data what can't be had", () => {
    const nothing = { standardError: null, degreesOfFreedom: null, t: null, p: null, interval: null };
    expect(welchDifference([1], [2, 3])).toMatchObject({ ...nothing, difference: -1.5, lacking: "too-few" });
    expect(welchDifference([], [2, 3])).toMatchObject({ ...nothing, difference: null, lacking: "too-few" });
    expect(welchDifference([4, 4], [1, 1, 1])).toMatchObject({
      ...nothing,
      difference: 3,
      lacking: "no-spread",
    });
    // Values that differ by rounding only do not scatter: 0.1 + 0.2 is not 0.3 in binary.
    expect(welchDifference([0.1 + 0.2, 0.3], [1, 1]).lacking).toBe("no-spread");
  });

  it("refuses a confidence of 1", () => {
    expect(() => welchDifference(A, B, 1)).toThrow(AnalysisError);
  });

  it("turns with the sides, moves with the values, and scales with them", () => {
    const values = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(values, values, (a, b) => {
        const one = welchDifference(a, b);
        const other = welchDifference(b, a);
        expect(other.difference).toBeCloseTo(-one.difference!, 9);
        expect(other.lacking).toBe(one.lacking);
        if (one.interval === null || one.standardError! < 1e-6) return;
        expect(other.interval![0]).toBeCloseTo(-one.interval[1], 6);
        const moved = welchDifference(
          a.map((x) => 3 * x + 7),
          b.map((x) => 3 * x + 7),
        );
        expect(moved.p!).toBeCloseTo(one.p!, 6);
        expect(moved.interval![0] / 3).toBeCloseTo(one.interval[0], 5);
        // The interval leaves out 0 exactly where p is below 5 %.
        const excludesZero = one.interval[0] > 0 || one.interval[1] < 0;
        if (Math.abs(one.p! - 0.05) > 1e-6) expect(excludesZero).toBe(one.p! < 0.05);
      }),
      { seed: 41_207, numRuns: 200 },
    );
  });

  it("holds the true difference in 95 of 100 cases, sides scattering alike or not", () => {
    // 6000 cases: standard error 0.28 points. Welch's test is known to keep within about 1.5 points from 4 a side on.
    const random = new SeededRandom(880_113);
    for (const [countA, countB, sdB] of [
      [4, 4, 1],
      [5, 5, 3],
      [4, 8, 2],
      [8, 4, 2],
    ]) {
      let inside = 0;
      for (let trial = 0; trial < 6000; trial++) {
        const a = Array.from({ length: countA }, () => 2 + random.normal());
        const b = Array.from({ length: countB }, () => random.normal(sdB));
        const [low, high] = welchDifference(a, b).interval!;
        if (low <= 2 && 2 <= high) inside++;
      }
      expect(inside / 6000).toBeGreaterThan(0.935 - 0.0084);
      expect(inside / 6000).toBeLessThan(0.965 + 0.0084);
    }
  });
});
