import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median } from "../../src/signal/median.js";

describe("median", () => {
  it.each([
    [[5], 5],
    [[3, 1, 2], 2],
    [[4, 1, 3, 2], 2.5],
    [[10, 9, 100], 10],
    [[-1, -20, 3, 0.5, 2], 0.5],
  ])("%j -> %d", (values, expected) => {
    expect(median(values)).toBe(expected);
  });

  it("gives NaN for no values", () => {
    expect(median([])).toBeNaN();
  });

  it("leaves the values where they were, whatever kind of array they come in", () => {
    const values = Float32Array.of(3, 1, 2);
    expect(median(values)).toBe(2);
    expect([...values]).toEqual([3, 1, 2]);
  });

  it("has as many values at or below it as at or above it", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1 }), (values) => {
        const middle = median(values);
        const half = values.length / 2;
        expect(values.filter((value) => value <= middle).length).toBeGreaterThanOrEqual(half);
        expect(values.filter((value) => value >= middle).length).toBeGreaterThanOrEqual(half);
      }),
    );
  });
});
