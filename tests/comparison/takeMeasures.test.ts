import { describe, expect, it } from "vitest";
import { takeMeasures } from "../../src/comparison/takeMeasures.js";
import { bodyDb } from "../body/bodyTruth.js";
import { takeOfStrings } from "./takeOfStrings.js";

const options = { equalGain: false, lowEdgeHz: 177.8279 };
const take = takeOfStrings([
  { name: "G2", frequencyHz: 100, partialsDb: [-20, -23, null, -30, -31, -32] },
  { name: "G3", frequencyHz: 200, partialsDb: [-10, -20] },
]);

function numberOf({ measures }: ReturnType<typeof takeMeasures>, name: string, string: string | null = null) {
  return measures.find(({ measure, string: of }) => measure === name && of === string)?.value;
}

/** Six strings on a body that is flat down to a fall of 12 dB an octave, or flat throughout. */
function flatTake(lowestModeHz: number) {
  const strings = { C2: 65.4064, G2: 97.9989, C3: 130.8128, G3: 195.9977, D4: 293.6648, G4: 391.9954 };
  return takeOfStrings(
    Object.entries(strings).map(([name, frequencyHz]) => ({
      name,
      frequencyHz,
      partialsDb: Array.from(
        { length: Math.floor(2800 / frequencyHz) },
        (_, i) =>
          -30 - 20 * Math.log10(i + 1) + bodyDb({ resonances: [], lowestModeHz }, (i + 1) * frequencyHz),
      ),
    })),
  );
}

describe("takeMeasures", () => {
  it("has the measures of the sounds that count, by hand", () => {
    const found = takeMeasures(take, [["G2"], ["G3"]], options);
    // Low: 10^-2; rest: 10^-2.3 + 10^-3 + 10^-3.1 + 10^-3.2 + 10^-1 + 10^-2 = 0.118436.
    expect(numberOf(found, "lowRegisterDb")).toBeCloseTo(10 * Math.log10(0.01 / 0.1174366), 3);
    expect(numberOf(found, "lowRegisterDb", "G2")).toBeCloseTo(10 * Math.log10(0.01 / 0.0074366), 3);
    expect(numberOf(found, "lowRegisterDb", "G3")).toBeUndefined();
    // 100 Hz lies in the 125 Hz octave, 200 Hz in the 250 Hz one (177.8 to 354.8): nothing in that of 63 Hz.
    expect(numberOf(found, "octave63Db")).toBeUndefined();
    expect(numberOf(found, "octave125Db")).toBeCloseTo(10 * Math.log10(0.01 / 0.1274366), 3);
    // Levels within the string: the sum of G3 is 10^-1 + 10^-2 = 0.11.
    expect(numberOf(found, "partial1Db", "G3")).toBeCloseTo(10 * Math.log10(0.1 / 0.11), 6);
    expect(numberOf(found, "partial3Db", "G2")).toBeUndefined(); // not heard
    expect(numberOf(found, "partial4Db", "G2")).toBeDefined();
    expect(numberOf(found, "partial5Db", "G2")).toBeUndefined(); // only the first four
  });

  it("leaves out sounds that don't count", () => {
    const found = takeMeasures(take, [["G2"]], options);
    expect(numberOf(found, "lowRegisterDb")).toBeCloseTo(numberOf(found, "lowRegisterDb", "G2")!, 9);
    expect(found.measures.some(({ string }) => string === "G3")).toBe(false);
    expect(takeMeasures(take, [], options).measures).toEqual([]);
  });

  it("has the level of the low part with equal gain only, re a full-scale sine", () => {
    expect(numberOf(takeMeasures(take, [["G2"]], options), "lowLevelDb")).toBeUndefined();
    expect(numberOf(takeMeasures(take, [["G2"]], { ...options, equalGain: true }), "lowLevelDb")).toBeCloseTo(
      -20,
      9,
    );
    // Another edge takes the next partial in.
    const wider = takeMeasures(take, [["G2"]], { equalGain: true, lowEdgeHz: 250 });
    expect(numberOf(wider, "lowLevelDb")).toBeCloseTo(10 * Math.log10(0.01 + 10 ** -2.3), 9);
  });

  it("has a low reach only where the body ends above the lowest partial played", () => {
    const common = ["C2", "G2", "C3", "G3", "D4", "G4"].map((name) => [name]);
    // A fall of 12 dB an octave is 10 dB down at (10 - 1)^(-1/4) = 0.577 of its corner: 173 Hz for 300 Hz. The fit rounds corners: 15 %.
    const falling = takeMeasures(flatTake(300), common, options);
    expect(Math.abs(numberOf(falling, "lowReachHz")! / 173.2 - 1)).toBeLessThan(0.15);
    const flat = takeMeasures(flatTake(0), common, options);
    if (flat.bodyCurve.status !== "fitted") throw new Error(flat.bodyCurve.reason);
    expect(flat.bodyCurve.lowReach).toMatchObject({ isAtOrBelow: true });
    expect(numberOf(flat, "lowReachHz")).toBeUndefined();
  });
});
