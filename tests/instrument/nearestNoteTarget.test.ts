import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { nearestNoteTarget } from "../../src/instrument/nearestNoteTarget.js";
import { parseNoteName } from "../../src/units/parseNoteName.js";

describe("nearestNoteTarget", () => {
  it("gives the equal-tempered note (ISO 16:1975)", () => {
    expect(nearestNoteTarget(65.5, 440)).toEqual({ note: "C2", targetHz: expect.closeTo(65.4064, 4) }); // as printed
    expect(nearestNoteTarget(440, 415)).toEqual({ note: "Bb4", targetHz: expect.closeTo(439.677, 3) }); // 415 * 2^(1/12)
  });

  it("is never more than half a semitone off, and its name and frequency agree", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 5000, noNaN: true }),
        fc.double({ min: 300, max: 600, noNaN: true }),
        (frequencyHz, a4Hz) => {
          const { note, targetHz } = nearestNoteTarget(frequencyHz, a4Hz);
          // 50 cents, and a little for rounding on the border.
          expect(Math.abs(1200 * Math.log2(frequencyHz / targetHz))).toBeLessThanOrEqual(50 + 1e-9);
          expect(12 * Math.log2(targetHz / a4Hz) + 69).toBeCloseTo(parseNoteName(note).midi, 8);
        },
      ),
    );
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("refuses %d Hz", (frequencyHz) => {
    expect(() => nearestNoteTarget(frequencyHz, 440)).toThrow(AnalysisError);
  });
});
