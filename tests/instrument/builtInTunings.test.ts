import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { builtInTunings } from "../../src/instrument/builtInTunings.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";

describe("builtInTunings", () => {
  // Common practice, from memory; no published source.
  it.each([
    ["alto", "drone C2, drone G2, drone C3, melody C3, melody G3, melody D4, melody G4"],
    ["tenor", "drone C2, drone G2, drone C3, melody C3, melody G3, melody D4, melody G4"],
    ["alto-three", "drone C2, drone G2, drone C3, melody G3, melody D4, melody G4"],
    ["soprano", "drone G2, drone C3, drone G3, trompette C4, melody G3, melody D4, melody G4, melody G4"],
    ["unison-pair", "drone G2, drone C3, drone G3, trompette C4, melody G4, melody G4"],
  ])("%s", (name, strings) => {
    const tuning = findTuning(name);
    expect(tuning.strings.map(({ role, note }) => `${role} ${note}`).join(", ")).toBe(strings);
  });

  it("names every string once, by its note and a number", () => {
    for (const { strings } of builtInTunings) {
      expect(new Set(strings.map(({ name }) => name)).size).toBe(strings.length);
    }
    expect(findTuning("alto").strings.map(({ name }) => name)).toEqual([
      "C2",
      "G2",
      "C3",
      "C3 2",
      "G3",
      "D4",
      "G4",
    ]);
  });

  it("has one capo: a tone, on the trompette of the unison pair", () => {
    const withCapo = builtInTunings.flatMap((tuning) =>
      tuning.strings.filter(({ capo }) => capo.length > 0).map(({ name, capo }) => [tuning.name, name, capo]),
    );
    expect(withCapo).toEqual([["unison-pair", "C4", [2]]]);
  });

  it("has targets for every string", () => {
    for (const tuning of builtInTunings) {
      for (const { targetHz } of stringTargets(tuning)) expect(targetHz).toBeGreaterThan(65);
    }
  });
});

describe("findTuning", () => {
  it("does not mind capitals and spaces", () => {
    expect(findTuning(" Alto-Three ").name).toBe("alto-three");
  });

  it.each(["", "bass", "__proto__", "toString"])("refuses %j and says what is known", (given) => {
    expect(() => findTuning(given)).toThrow(
      new AnalysisError("tuning-unknown", { given, known: "alto, tenor, alto-three, soprano, unison-pair" }),
    );
  });
});
