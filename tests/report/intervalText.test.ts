import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { intervalText } from "../../src/report/intervalText.js";
import { rounded, roundedInterval } from "../../src/report/rounded.js";
import { signed } from "../../src/report/signed.js";

describe("intervalText", () => {
  it("rounds outward, and leaves what needs no rounding", () => {
    expect(intervalText([2.1, 2.9], 1)).toBe("+2.1 to +2.9");
    expect(intervalText([-0.24, 0.21], 1)).toBe("-0.3 to +0.3");
    expect(intervalText([-4.8, -3.7], 1)).toBe("-4.8 to -3.7");
    expect(intervalText([0, 0], 1)).toBe("0.0 to 0.0");
  });

  it("holds the printed point, whatever the numbers", () => {
    const cents = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(
      fc.property(cents, cents, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, share) => {
        const ends = [Math.min(a, b), Math.max(a, b)] as const;
        const point = ends[0] + share * (ends[1] - ends[0]);
        // As in the document: cents to 0.001.
        const text = intervalText(roundedInterval(ends, 3)!, 1);
        const [low, high] = text.split(" to ").map(Number);
        const printed = Number(signed(rounded(point, 3)!, 1));
        expect(printed).toBeGreaterThanOrEqual(low!);
        expect(printed).toBeLessThanOrEqual(high!);
      }),
    );
  });
});
