import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tristimulus } from "../../src/body/tristimulus.js";

describe("tristimulus", () => {
  it("is .277952 / .301115 / .420933 for 20 partials at 1/n", () => {
    // Pollard & Jansson 1982, Acustica 51, on amplitudes: 1 / H, (1/2 + 1/3 + 1/4) / H and the rest, H = 3.597740.
    const found = tristimulus(Array.from({ length: 20 }, (_, index) => 1 / (index + 1)))!;
    expect(found[0]).toBeCloseTo(0.277952, 6);
    expect(found[1]).toBeCloseTo(0.301115, 6);
    expect(found[2]).toBeCloseTo(0.420933, 6);
  });

  it("is three shares of one whole, whatever the gain", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 }),
        (amplitudes) => {
          const found = tristimulus(amplitudes);
          if (found === null) {
            expect(amplitudes.every((amplitude) => amplitude === 0)).toBe(true);
            return;
          }
          expect(found[0] + found[1] + found[2]).toBeCloseTo(1, 9);
          expect(Math.min(...found)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });

  it("is all fundamental for a sine, and null for silence", () => {
    expect(tristimulus([0.3])).toEqual([1, 0, 0]);
    expect(tristimulus([])).toBeNull();
    expect(tristimulus([0, 0])).toBeNull();
  });
});
