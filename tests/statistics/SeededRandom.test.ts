import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const COUNT = 100_000;

function moments(draw: () => number) {
  const values = Float64Array.from({ length: COUNT }, draw);
  const mean = values.reduce((sum, value) => sum + value, 0) / COUNT;
  const central = (power: number) => values.reduce((sum, value) => sum + (value - mean) ** power, 0) / COUNT;
  return { values, mean, variance: central(2), skewness: central(3) / central(2) ** 1.5, fourth: central(4) };
}

// The seeds are fixed, so these can't fail by chance; four standard errors say that they are typical draws.
describe("SeededRandom", () => {
  it.each([1, 2, 2026, -5, 2 ** 31])(
    "uniform numbers have the moments of the uniform distribution (seed %i)",
    (seed) => {
      const random = new SeededRandom(seed);
      const { values, mean, variance } = moments(() => random.uniform(-1, 3));
      expect(Math.min(...values.slice(0, 20000))).toBeGreaterThanOrEqual(-1);
      expect(values.every((value) => value >= -1 && value < 3)).toBe(true);
      expect(Math.abs(mean - 1)).toBeLessThan((4 * (4 / Math.sqrt(12))) / Math.sqrt(COUNT));
      // Variance of a sample variance: (mu4 - var^2) / n, mu4 = width^4 / 80.
      expect(Math.abs(variance - 16 / 12)).toBeLessThan(4 * Math.sqrt((256 / 80 - (16 / 12) ** 2) / COUNT));
    },
  );

  it.each([1, 2, 2026, -5, 2 ** 31])(
    "normal numbers have the moments of the normal distribution (seed %i)",
    (seed) => {
      const random = new SeededRandom(seed);
      const { values, mean, variance, skewness, fourth } = moments(() => random.normal(2));
      expect(Math.abs(mean)).toBeLessThan((4 * 2) / Math.sqrt(COUNT));
      expect(Math.abs(variance / 4 - 1)).toBeLessThan(4 * Math.sqrt(2 / COUNT));
      expect(Math.abs(skewness)).toBeLessThan(4 * Math.sqrt(6 / COUNT)); // Cramer: var = 6 / n
      expect(Math.abs(fourth / variance ** 2 - 3)).toBeLessThan(4 * Math.sqrt(24 / COUNT)); // 24 / n
      // 95 % within 1.96 standard deviations, binomial error.
      const inside = values.filter((value) => Math.abs(value) < 1.959964 * 2).length / COUNT;
      expect(Math.abs(inside - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / COUNT));
    },
  );

  it("has no memory from one draw to the next", () => {
    const random = new SeededRandom(8);
    const { values } = moments(() => random.normal());
    for (const lag of [1, 2, 3, 10]) {
      let sum = 0;
      for (let i = lag; i < COUNT; i++) sum += values[i] * values[i - lag];
      expect(Math.abs(sum / COUNT)).toBeLessThan(4 / Math.sqrt(COUNT));
    }
  });

  it("repeats for the same seed and not for another", () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 1, max: 50 }), (seed, count) => {
        const draw = (from: number) => {
          const random = new SeededRandom(from);
          return Array.from({ length: count }, (_, i) =>
            i % 3 === 0 ? random.uniform(0, 5) : random.normal(1.5),
          );
        };
        expect(draw(seed)).toEqual(draw(seed));
        expect(draw(seed)).not.toEqual(draw(seed ^ 1));
      }),
    );
  });

  it("gives 0 for a standard deviation of 0", () => {
    const random = new SeededRandom(1);
    expect(Math.abs(random.normal(0))).toBe(0);
    expect(Math.abs(random.normal(0))).toBe(0);
  });
});
