import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { sampleSpread } from "../../src/statistics/sampleSpread.js";
import { spreadInterval } from "../../src/statistics/spreadInterval.js";

describe("spreadInterval", () => {
  it("goes by the points of chi-squared", () => {
    // Published tables (from memory): 9 degrees of freedom, 2.5 % 2.700, 97.5 % 19.023.
    const interval = spreadInterval(1, 10)!;
    // The table has three digits after the point: 0.0005 of 2.700 moves the root by 0.0002.
    expect(interval[0]).toBeCloseTo(Math.sqrt(9 / 19.023), 3);
    expect(interval[1]).toBeCloseTo(Math.sqrt(9 / 2.7), 3);
    expect(spreadInterval(1, 1)).toBeNull();
  });

  it("holds the true spread of normal values in 95 of 100", () => {
    const random = new SeededRandom(90210);
    const cases = 2000;
    let held = 0;
    for (let i = 0; i < cases; i++) {
      const values = Array.from({ length: 8 }, () => random.normal(3));
      const [low, high] = spreadInterval(sampleSpread(values).standardDeviation!, 8)!;
      if (low <= 3 && 3 <= high) held++;
    }
    // Three standard deviations of a share of 2,000: sqrt(0.95 * 0.05 / 2000) = 0.005.
    expect(Math.abs(held / cases - 0.95)).toBeLessThan(0.015);
  });
});
