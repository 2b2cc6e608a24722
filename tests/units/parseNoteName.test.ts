import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { parseNoteName } from "../../src/units/parseNoteName.js";

describe("parseNoteName", () => {
  // Scientific pitch notation and MIDI numbers: C4 is middle C and note 60, A4 is 69, C-1 is 0.
  it.each([
    ["C-1", "C-1", 0],
    ["C2", "C2", 36],
    ["G2", "G2", 43],
    ["C4", "C4", 60],
    ["A4", "A4", 69],
    ["B9", "B9", 131],
    ["g4", "G4", 67],
    ["F#3", "F#3", 54],
    ["F♯3", "F#3", 54],
    ["Bb1", "Bb1", 34],
    ["B♭1", "Bb1", 34],
    ["bb1", "Bb1", 34],
    ["b1", "B1", 35],
    ["A#3", "A#3", 58],
    ["  D4\n", "D4", 62],
    // The octave number belongs to the letter.
    ["B#3", "B#3", 60],
    ["Cb4", "Cb4", 59],
    ["E#4", "E#4", 65],
    ["Fb4", "Fb4", 64],
  ])("%s", (text, name, midi) => {
    expect(parseNoteName(text)).toEqual({ name, midi });
  });

  it.each([
    "H3",
    "h3",
    "Hb3",
    "",
    " ",
    "C",
    "4",
    "G10",
    "G-2",
    "Cb-1",
    "B#9",
    "BB3",
    "C##4",
    "Cx4",
    "C 4",
    "C4.",
    "C４",
    "G4 G4",
    "#4",
    "Ce4",
    "C4\u0000",
    "CCCC4",
  ])("refuses %j and quotes the whole of it", (given) => {
    try {
      parseNoteName(given);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(AnalysisError);
      expect((error as AnalysisError).code).toBe("note-name-invalid");
      expect((error as AnalysisError).details).toEqual({ given });
    }
  });

  it("refuses a hundred thousand letters without delay", () => {
    expect(() => parseNoteName("C".repeat(100_000))).toThrow(AnalysisError);
  });

  it("throws nothing but AnalysisError, whatever it is given", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 6 }), (text) => {
        try {
          expect(parseNoteName(text).midi).toBeGreaterThanOrEqual(0);
        } catch (error) {
          expect(error).toBeInstanceOf(AnalysisError);
        }
      }),
    );
  });
});
