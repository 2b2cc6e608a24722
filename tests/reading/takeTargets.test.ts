import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { measureOptionsOf } from "../../src/reading/measureOptionsOf.js";
import { takeTargets } from "../../src/reading/takeTargets.js";

const pair = findTuning("unison-pair");

describe("takeTargets", () => {
  it("has the nearest notes where no instrument is named", () => {
    const { targets, settings } = takeTargets(null, { isTuning: false });
    expect(targets).toBeNull();
    expect(settings).toMatchObject({ a4Hz: 440, tonic: null, tuning: null, capo: {}, order: null });
  });

  it("puts what is chosen into targets and settings alike, names as the instrument writes them", () => {
    const chosen = takeTargets(pair, {
      isTuning: true,
      a4Hz: 442,
      capo: new Map([["C4", 2]]),
      order: ["G4 2", "G4"],
      sounding: ["G2", "C4"],
      anchor: "G2",
      lowEdgeHz: 200,
    });
    // Two semitones over C4 is D4, seven semitones below A4 (arithmetic).
    expect(chosen.targets!.find(({ name }) => name === "C4")!.targetHz).toBeCloseTo(442 * 2 ** (-7 / 12), 9);
    const { order, sounding, anchor, lowEdgeHz } = chosen.settings;
    expect(chosen.settings).toMatchObject({ a4Hz: 442, tuning: "unison-pair", capo: { C4: 2 } });
    expect(measureOptionsOf(chosen)).toEqual({
      targets: chosen.targets,
      a4Hz: 442,
      order: ["G4 2", "G4"],
      sounding: ["G2", "C4"],
      anchor: "G2",
      lowEdgeHz: 200,
    });
    expect({ order, sounding, anchor, lowEdgeHz }).toEqual({
      order: ["G4 2", "G4"],
      sounding: ["G2", "C4"],
      anchor: "G2",
      lowEdgeHz: 200,
    });
  });

  it.each([
    ["a pitch", { a4Hz: 40 }, "value-out-of-range"],
    ["an edge", { lowEdgeHz: 40 }, "value-out-of-range"],
    ["a capo", { capo: new Map([["G4", 2]]) }, "capo-not-available"],
    ["a string", { sounding: ["A2"] }, "string-unknown"],
    ["a string that is said twice", { order: ["G4", "G4"] }, "string-repeated"],
    ["an anchor", { anchor: "A2" }, "string-unknown"],
  ] as const)("refuses %s that won't do", (_, choice, code) => {
    expect(() => takeTargets(pair, { isTuning: true, ...choice })).toThrow(
      expect.toSatisfy((error: unknown) => error instanceof AnalysisError && error.code === code),
    );
    if ("a4Hz" in choice)
      expect(() => takeTargets(null, { isTuning: false, ...choice })).toThrow(AnalysisError);
  });
});
