import { describe, expect, it } from "vitest";
import { outlyingValue } from "../../src/statistics/outlyingValue.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** Values of which the last is this many standard deviations from the mean of all: -1 and 1 in turn, and the last. */
function withDistance(count: number, wanted: number): number[] {
  const base = Array.from({ length: count - 1 }, (_, i) => (i % 2 === 0 ? 1 : -1));
  let low = 1;
  let high = 1e4;
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2;
    const values = [...base, middle];
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1));
    if ((middle - mean) / sd < wanted) low = middle;
    else high = middle;
  }
  return [...base, (low + high) / 2];
}

describe("outlyingValue", () => {
  it.each([
    [4, 1.481],
    [5, 1.715],
    [6, 1.887],
    [8, 2.126],
    [10, 2.29],
  ])("has the published two-sided 5 %% limit for %d values, %d", (count, limit) => {
    // Grubbs' table as statistics handbooks print it (from memory), rounded to three places: 0.002 on either side of it.
    expect(outlyingValue(withDistance(count, limit + 0.002))).toBe(count - 1);
    expect(outlyingValue(withDistance(count, limit - 0.002))).toBeNull();
  });

  it("claims one in 5 of 100 samples that have none", () => {
    const random = new SeededRandom(40_719);
    let claimed = 0;
    for (let k = 0; k < 4000; k++) {
      if (outlyingValue(Array.from({ length: 5 }, () => random.normal(1))) !== null) claimed++;
    }
    // Binomial standard error of 4,000 at 5 %: 0.34 points; three of them.
    expect(Math.abs(claimed / 40 - 5)).toBeLessThan(1.05);
  });

  it("claims none of three values, none of equal ones, none of nothing", () => {
    expect(outlyingValue([0, 0, 1e6])).toBeNull();
    expect(outlyingValue([2, 2, 2, 2])).toBeNull();
    expect(outlyingValue([])).toBeNull();
  });
});
