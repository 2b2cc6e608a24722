import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { parsePitchClass } from "../../src/units/parsePitchClass.js";

describe("parsePitchClass", () => {
  it.each([
    ["C", "C", 0],
    ["g", "G", 7],
    ["F♯", "F#", 6],
    ["eb", "Eb", 3],
    ["b", "B", 11],
    ["bb", "Bb", 10],
    ["Cb", "Cb", -1],
    ["B#", "B#", 12],
  ])("%s", (text, name, semitonesOverC) => {
    expect(parsePitchClass(text)).toEqual({ name, semitonesOverC });
  });

  it.each(["H", "G4", "", "do", "C major", "♯"])("refuses %j", (given) => {
    expect(() => parsePitchClass(given)).toThrow(new AnalysisError("note-name-invalid", { given }));
  });
});
