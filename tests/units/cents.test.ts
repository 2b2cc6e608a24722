import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cents, shiftByCents } from "../../src/units/cents.js";

describe("cents", () => {
  // Arithmetic: 1200 log2(ratio), printed to six decimals, hence half a unit of the sixth.
  it.each([
    ["pure fifth 3/2", 3, 2, 701.955001],
    ["pure fourth 4/3", 4, 3, 498.044999],
    ["pure major third 5/4", 5, 4, 386.313714],
    ["octave", 2, 1, 1200],
    ["syntonic comma 81/80", 81, 80, 21.50629],
    ["Pythagorean comma 3^12/2^19", 3 ** 12, 2 ** 19, 23.46001],
    ["a fourth down", 3, 4, -498.044999],
  ])("%s", (_name, frequency, reference, expected) => {
    expect(cents(frequency, reference)).toBeCloseTo(expected, 6);
  });

  it("one cent is a ratio of 1.000577790 (the 1200th root of 2)", () => {
    expect(shiftByCents(1, 1)).toBeCloseTo(1.00057779, 9); // printed to nine decimals
  });

  it("leaves silence to the caller: 0 Hz is infinitely far down", () => {
    expect(cents(0, 440)).toBe(Number.NEGATIVE_INFINITY);
  });

  it("shifting and measuring undo each other", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 20000, noNaN: true }),
        fc.double({ min: -6000, max: 6000, noNaN: true }),
        (frequencyHz, shift) => {
          // Rounding of log2 and 2^x in double precision: some 1e-12 of 6000 cents.
          expect(cents(shiftByCents(frequencyHz, shift), frequencyHz)).toBeCloseTo(shift, 8);
        },
      ),
    );
  });
});
