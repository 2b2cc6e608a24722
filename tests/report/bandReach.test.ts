import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bandReach } from "../../src/report/charts/bandReach.js";

const decibels = fc.double({ min: -200, max: 200, noNaN: true });

describe("bandReach", () => {
  it("holds every value and 0, ends on whole steps, and has few lines", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(decibels, decibels, decibels), { minLength: 1 }), (points) => {
        const { min, max, interval } = bandReach(points);
        for (const [value] of [...points, [0]]) {
          expect(value).toBeGreaterThanOrEqual(min);
          expect(value).toBeLessThanOrEqual(max);
        }
        expect(Math.abs((max - min) / interval - Math.round((max - min) / interval))).toBeLessThan(1e-9);
        expect((max - min) / interval).toBeLessThanOrEqual(9);
      }),
    );
  });

  it("holds a band of ordinary width, and cuts one that would press the curve flat", () => {
    expect(bandReach([[0, -3, 3]])).toEqual({ min: -3, max: 3, interval: 1 });
    expect(bandReach([[0, -300, 300]]).max).toBeLessThan(21);
  });
});
