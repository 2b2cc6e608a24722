import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nextPowerOfTwo } from "../../src/signal/nextPowerOfTwo.js";

describe("nextPowerOfTwo", () => {
  it.each([
    [0.3, 1],
    [1, 1],
    [2, 2],
    [3, 4],
    [800, 1024],
    [1024, 1024],
    [1025, 2048],
    [4410.5, 8192],
  ])("%d -> %i", (value, expected) => {
    expect(nextPowerOfTwo(value)).toBe(expected);
  });

  it("is the smallest one that is not below the value", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 30 }), (value) => {
        const power = nextPowerOfTwo(value);
        expect(power & (power - 1)).toBe(0);
        expect(power).toBeGreaterThanOrEqual(value);
        expect(power / 2).toBeLessThan(value);
      }),
    );
  });

  it("keeps every power of two as it is", () => {
    for (let exponent = 0; exponent <= 40; exponent++) {
      expect(nextPowerOfTwo(2 ** exponent)).toBe(2 ** exponent);
    }
  });
});
