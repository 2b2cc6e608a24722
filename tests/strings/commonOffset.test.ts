import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { commonOffset } from "../../src/strings/commonOffset.js";

/** Property tests draw the same cases every time. */
const SEED = 20_260_304;

describe("commonOffset", () => {
  it("is the median of the deviations, with an interval from their spread", () => {
    // Median 2, median absolute deviation 1; 1.4826 and 1.2533 for normal values (the latter sqrt(pi / 2));
    // t(0.975, 2) = 4.302653 (tables): 1.2533 * 1.4826 * 4.302653 / sqrt(3) = 4.61587.
    const found = commonOffset([1, 2, 3])!;
    expect(found.offsetCents).toBe(2);
    // The two constants have five digits.
    expect(found.interval95Cents?.[0]).toBeCloseTo(2 - 4.61587, 3);
    expect(found.interval95Cents?.[1]).toBeCloseTo(2 + 4.61587, 3);
  });

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

  it("has no interval for fewer than three strings", () => {
    expect(commonOffset([4, 6])).toEqual({ offsetCents: 5, interval95Cents: null });
    expect(commonOffset([4])).toEqual({ offsetCents: 4, interval95Cents: null });
  });

  it("moves along when all strings move", () => {
    const deviation = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(deviation, { minLength: 3, maxLength: 9 }), deviation, (values, shift) => {
        const before = commonOffset(values)!;
        const after = commonOffset(values.map((value) => value + shift))!;
        expect(after.offsetCents).toBeCloseTo(before.offsetCents + shift, 9);
        expect(after.interval95Cents?.[0]).toBeCloseTo(before.interval95Cents![0] + shift, 9);
      }),
      { seed: SEED },
    );
  });
});
