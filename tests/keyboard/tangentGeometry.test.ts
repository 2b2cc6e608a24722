import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bridgeShiftMm,
  centsPerMm,
  nutShiftMm,
  soundingLengthMm,
  tangentMove,
} from "../../src/keyboard/tangentGeometry.js";

describe("stopped string of 350 mm", () => {
  // Computed by hand from L 2^(-n/12) and 1200 / ln 2 / length = 1731.23 / length, to the digits given.
  it("stops 116.403 mm from the nut at the fifth and 175.000 mm at the octave", () => {
    expect(350 - soundingLengthMm(350, 700)).toBeCloseTo(116.403, 3);
    expect(350 - soundingLengthMm(350, 1200)).toBeCloseTo(175, 9);
  });

  it("rises by 4.946, 7.411 and 9.893 cents a millimetre at keys 0, 7 and 12", () => {
    expect(centsPerMm(350)).toBeCloseTo(4.946, 3);
    expect(centsPerMm(soundingLengthMm(350, 700))).toBeCloseTo(7.411, 3);
    expect(centsPerMm(soundingLengthMm(350, 1200))).toBeCloseTo(9.893, 3);
  });
});

describe("tangentMove", () => {
  it("sends the tangent of a sharp key towards the nut and of a flat one towards the bridge", () => {
    const sharp = tangentMove(345, 700, 10);
    const flat = tangentMove(345, 700, -10);
    expect(sharp.towards).toBe("nut");
    expect(flat.towards).toBe("bridge");
    // 10 cents at 1731.23 / 230.26 = 7.519 cents a millimetre; what the curve adds is under half a hundredth.
    expect(sharp.moveMm).toBeCloseTo(1.33, 2);
    expect(tangentMove(345, 700, 0)).toEqual({ moveMm: 0, towards: null });
  });

  it("gives back the wanted length", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 200, max: 600, noNaN: true }),
        fc.double({ min: 50, max: 2400, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        (length, wanted, off) => {
          const { moveMm, towards } = tangentMove(length, wanted, off);
          const now = soundingLengthMm(length, wanted + off);
          const then = towards === "nut" ? now + moveMm : now - moveMm;
          // Rounding of a double at 600 mm.
          expect(1200 * Math.log2(length / then)).toBeCloseTo(wanted, 8);
        },
      ),
    );
  });
});

describe("shifts", () => {
  it("the nut moves all keys by 5.0 cents a millimetre at 345 mm", () => {
    // 1731.23 / 345 = 5.018, to first order: over 1 mm the curve adds 0.007.
    expect(nutShiftMm(345, 5.018)).toBeCloseTo(1, 2);
    expect(nutShiftMm(345, -5.018)).toBeCloseTo(-1, 2);
  });

  it("the bridge, moved as told, takes the pattern off to first order", () => {
    const cents = 6;
    const shift = bridgeShiftMm(345, cents);
    for (const key of [1, 7, 12, 19, 24]) {
      const slope = 2 ** (key / 12) - 1;
      const before = 100 * key + cents * slope;
      const after = 1200 * Math.log2((345 + shift) / (soundingLengthMm(345, before) + shift));
      // Second order: (shift / length)^2 / 2 in cents, 0.05 at key 24 on a pattern of 18 cents.
      expect(Math.abs(after - 100 * key)).toBeLessThan(0.2);
    }
  });
});
