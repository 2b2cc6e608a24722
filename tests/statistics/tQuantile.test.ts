import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { tQuantile } from "../../src/statistics/tQuantile.js";

describe("tQuantile", () => {
  // Published tables of Student's t (Fisher & Yates, Statistical Tables, table III; three decimals).
  it.each([
    [0.975, 1, 12.706],
    [0.975, 2, 4.303],
    [0.975, 4, 2.776],
    [0.975, 9, 2.262],
    [0.975, 30, 2.042],
    [0.975, 120, 1.98],
    [0.95, 1, 6.314],
    [0.95, 10, 1.812],
    [0.995, 1, 63.657],
    [0.995, 5, 4.032],
    [0.9, 20, 1.325],
  ])("t(%d) with %i degrees of freedom is %d", (probability, degreesOfFreedom, expected) => {
    expect(Math.abs(tQuantile(probability, degreesOfFreedom) - expected)).toBeLessThan(0.00051); // half the last digit
  });

  it("with one degree of freedom is Cauchy's: tan(pi (p - 1/2)); with two 2 p' / sqrt(2 (1/4 - p'^2) ), p' = p - 1/2", () => {
    for (const probability of [0.6, 0.75, 0.9, 0.975, 0.999]) {
      const off = probability - 0.5;
      // Closed forms; the package iterates to about 1e-8 of the value.
      expect(tQuantile(probability, 1) / Math.tan(Math.PI * off)).toBeCloseTo(1, 6);
      expect(tQuantile(probability, 2) / ((2 * off) / Math.sqrt(2 * (0.25 - off * off)))).toBeCloseTo(1, 6);
    }
  });

  it("is odd about 1/2, and takes degrees of freedom that are not whole", () => {
    for (const freedom of [1, 3, 7.98894, 25]) {
      expect(tQuantile(0.975, freedom)).toBeCloseTo(-tQuantile(0.025, freedom), 6);
      expect(Math.abs(tQuantile(0.5, freedom))).toBeLessThan(1e-6);
    }
    const between = tQuantile(0.975, 7.98894);
    expect(between).toBeLessThan(2.365); // 7 degrees of freedom, table
    expect(between).toBeGreaterThan(2.306); // 8
  });

  it("tends to the normal distribution's 1.959964", () => {
    expect(tQuantile(0.975, 1e6)).toBeCloseTo(1.959964, 4); // z (1 + (z^2 + 1) / 4 df): 2.4e-6 away
  });

  it.each([
    [0, 3],
    [1, 3],
    [-0.1, 3],
    [Number.NaN, 3],
    [0.5, 0],
    [0.5, -1],
    [0.5, Number.NaN],
  ])("refuses probability %d with %d degrees of freedom", (probability, freedom) => {
    expect(() => tQuantile(probability, freedom)).toThrow(AnalysisError);
  });
});
