import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { amplitudeToDb, dbToAmplitude, dbToPower, powerToDb } from "../../src/units/decibels.js";

describe("decibels", () => {
  it("10 lg of powers, 20 lg of amplitudes", () => {
    expect(powerToDb(100)).toBe(20);
    expect(powerToDb(0.5)).toBeCloseTo(-3.0103, 4); // 10 lg 0.5, printed to four decimals
    expect(amplitudeToDb(0.1)).toBe(-20);
    // Partials of a sawtooth at 1/n (arithmetic, two decimals): 0, -6.02, -9.54, -12.04.
    expect([1, 2, 3, 4].map((n) => Number(amplitudeToDb(1 / n).toFixed(2)))).toEqual([
      0, -6.02, -9.54, -12.04,
    ]);
  });

  it("gives -Infinity for nothing, and nothing for -Infinity", () => {
    expect(powerToDb(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(amplitudeToDb(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(dbToPower(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(dbToAmplitude(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(powerToDb(-1)).toBeNaN();
  });

  it("there and back", () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 200, noNaN: true }), (levelDb) => {
        // Double rounding: some 1e-14 of 200 dB.
        expect(powerToDb(dbToPower(levelDb))).toBeCloseTo(levelDb, 10);
        expect(amplitudeToDb(dbToAmplitude(levelDb))).toBeCloseTo(levelDb, 10);
      }),
    );
  });
});
