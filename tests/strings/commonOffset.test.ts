import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { commonOffset } from "../../src/strings/commonOffset.js";

/** Property tests draw the same cases every time. */
const SEED = 20_260_304;

describe("commonOffset", () => {
  it("is the median of the deviations, with an interval from their spread", () => {
    // Median 3, median absolute deviation 1, five values: 9.34 / sqrt(5) = 4.177.
    const found = commonOffset([1, 2, 3, 4, 5])!;
    expect(found.offsetCents).toBe(3);
    expect(found.interval95Cents?.[0]).toBeCloseTo(3 - 4.177, 3);
    expect(found.interval95Cents?.[1]).toBeCloseTo(3 + 4.177, 3);
  });

  it.each([5, 6, 7, 8, 9, 12])(
    "holds the true offset of %d normally scattered strings in 95 of 100",
    (count) => {
      const random = new SeededRandom(900 + count);
      let held = 0;
      for (let trial = 0; trial < 4000; trial++) {
        const [low, high] = commonOffset(Array.from({ length: count }, () => 2 + random.normal(3)))!
          .interval95Cents!;
        if (low <= 2 && 2 <= high) held++;
      }
      // Binomial: 0.34 % standard error, three of them, and the rounding of the table.
      expect(held / 4000).toBeGreaterThan(0.937);
      expect(held / 4000).toBeLessThan(0.963);
    },
  );

  it("is not pulled along by one string far out", () => {
    const others = [2.1, 1.8, 2.4, 2, 1.9];
    const quiet = commonOffset([...others, 2.2])!.offsetCents;
    for (const far of [30, 59, -59, 250, -250]) {
      // The median can move to a neighbouring value at most: 0.2 cents.
      expect(Math.abs(commonOffset([...others, far])!.offsetCents - quiet)).toBeLessThanOrEqual(0.2);
    }
  });

  it("gives strings further off than 60 cents no say", () => {
    expect(commonOffset([1, 2, 3, -82.5])).toEqual(commonOffset([1, 2, 3]));
    expect(commonOffset([-82.5, 150])).toBeNull();
    expect(commonOffset([])).toBeNull();
  });

  it("has no interval for fewer than five strings", () => {
    expect(commonOffset([4, 6])).toEqual({ offsetCents: 5, interval95Cents: null });
    expect(commonOffset([4])).toEqual({ offsetCents: 4, interval95Cents: null });
  });

  it("moves along when all strings move", () => {
    const deviation = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(deviation, { minLength: 5, maxLength: 9 }), deviation, (values, shift) => {
        const before = commonOffset(values)!;
        const after = commonOffset(values.map((value) => value + shift))!;
        expect(after.offsetCents).toBeCloseTo(before.offsetCents + shift, 9);
        expect(after.interval95Cents?.[0]).toBeCloseTo(before.interval95Cents![0] + shift, 9);
      }),
      { seed: SEED },
    );
  });
});
