import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { stringPitch, variationBetween } from "../../src/sympathetic/stringPitch.js";

describe("stringPitch", () => {
  it("weights plucks by their uncertainty: inverse variances, where plucks don't differ", () => {
    const none = { variance: 0, degreesOfFreedom: 0 };
    const { mean } = stringPitch(
      [
        { value: 0, deviation: 1 },
        { value: 3, deviation: 2 },
      ],
      none,
    );
    // (0 / 1 + 3 / 4) / (1 / 1 + 1 / 4) = 0.6; the least deviation of 0.015 moves it by less than 0.001.
    expect(mean).toBeCloseTo(0.6, 3);
  });

  it("finds what plucks differ by over all strings: the pooled variance less their own", () => {
    const found = variationBetween([
      [
        { value: 0, deviation: 0 },
        { value: 2, deviation: 0 },
      ],
      [
        { value: 5, deviation: 0 },
        { value: 5, deviation: 0 },
      ],
      [{ value: 9, deviation: 0 }],
    ]);
    // Squares about the means: 2 and 0, with one degree of freedom each.
    expect(found).toEqual({ variance: 1, degreesOfFreedom: 2 });
  });

  it("holds the string's pitch in 95 of 100, however plucks differ", () => {
    const random = new SeededRandom(1201);
    for (const differCents of [0, 0.3, 2]) {
      let inside = 0;
      const trials = 300;
      for (let trial = 0; trial < trials; trial++) {
        const strings = Array.from({ length: 6 }, () =>
          Array.from({ length: 2 }, () => {
            const deviation = random.uniform(0.05, 0.3);
            return { value: random.normal(differCents) + random.normal(deviation), deviation };
          }),
        );
        const { interval95 } = stringPitch(strings[0]!, variationBetween(strings));
        if (interval95[0] <= 0 && interval95[1] >= 0) inside++;
      }
      // Standard error 1.3 points: 95 less three of them. Above, what is taken to be common to plucks widens it, which it is not here.
      expect(inside / trials).toBeGreaterThan(0.91);
      // Two plucks: at most sqrt(1 + 0.3) times as wide, by t with 16 degrees of freedom; both together are 1.25 times, 98.5 %.
      expect(inside / trials).toBeLessThan(1);
    }
  });
});
