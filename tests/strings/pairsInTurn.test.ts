import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pairsInTurn } from "../../src/strings/pairsInTurn.js";
import { midiToFrequencyHz } from "../../src/units/midiFrequency.js";
import { movedHz, stringAt } from "./handMadePassage.js";

/** Property tests draw the same cases every time. */
const SEED = 20_260_305;

const tempered = (name: string, midi: number) => {
  const hz = midiToFrequencyHz(midi, 440);
  return stringAt(name, hz, hz);
};

describe("pairsInTurn", () => {
  it.each([
    // f = 440 * 2^((m - 69) / 12), beats |p f1 - q f2|; a published tuning table rounds them to .9, .6 and .7
    // (Capleton, Theory and Practice of Piano Tuning, 2007). The values have four decimals.
    ["C4", 60, "G4", 67, "3:2", 0.8858],
    ["F3", 53, "C4", 60, "3:2", 0.5912],
    ["A3", 57, "E4", 64, "3:2", 0.7449],
    ["C2", 36, "G2", 43, "3:2", 0.2215],
  ] as const)("gives the beats of the tempered fifth %s %i - %s %i", (low, m, high, n, ratio, beats) => {
    const [pair] = pairsInTurn([tempered(low, m), tempered(high, n)]);
    expect(pair).toMatchObject({ lower: low, upper: high, ratio, basis: "in-turn" });
    expect(pair.beatsPerSecond).toBeCloseTo(beats, 4);
    // The tempered fifth is 700 cents, the pure one 701.955: narrow, so negative.
    expect(pair.centsFromPure).toBeCloseTo(-1.955, 3);
  });

  it.each([
    // 1200 log2 of 4/3, 3/2, 3/1 against the tempered 500, 700, 1900 cents.
    ["a tempered fourth is wide", 5, "4:3", 1.955],
    ["an octave is pure", 12, "2:1", 0],
    ["a tempered twelfth is narrow", 19, "3:1", -1.955],
    ["a double octave is pure", 24, "4:1", 0],
    ["a unison is pure", 0, "1:1", 0],
  ] as const)("%s", (_, semitones, ratio, fromPure) => {
    const [pair] = pairsInTurn([tempered("low", 48), tempered("high", 48 + semitones)]);
    expect(pair.ratio).toBe(ratio);
    expect(pair.centsFromPure).toBeCloseTo(fromPure, 3);
  });

  it("counts wide as positive, whichever string it is that is off", () => {
    const fifth = (lowHz: number, highHz: number) =>
      pairsInTurn([stringAt("low", lowHz, 100), stringAt("high", highHz, 150)])[0].centsFromPure;
    expect(fifth(100, movedHz(150, 4))).toBeCloseTo(4, 9);
    expect(fifth(movedHz(100, 4), 150)).toBeCloseTo(-4, 9);
  });

  it("adds the two half widths as squares, for the readings are independent", () => {
    const [pair] = pairsInTurn([stringAt("low", 100, 100, 0.3), stringAt("high", movedHz(150, 2), 150, 0.4)]);
    expect(pair.interval95Cents?.[0]).toBeCloseTo(1.5, 9);
    expect(pair.interval95Cents?.[1]).toBeCloseTo(2.5, 9);
  });

  it("takes over that an interval does not lie evenly about a reading", () => {
    const low = stringAt("low", 100, 100, 0.3);
    const high = { ...stringAt("high", 150, 150), interval95Cents: [-0.1, 0.7] as const };
    const [pair] = pairsInTurn([low, high]);
    // The middle of the upper string's interval lies 0.3 above its reading; hypot(0.3, 0.4) = 0.5.
    expect(pair.interval95Cents?.[0]).toBeCloseTo(-0.2, 9);
    expect(pair.interval95Cents?.[1]).toBeCloseTo(0.8, 9);
  });

  it("has no interval where one of the two has none", () => {
    const [pair] = pairsInTurn([stringAt("low", 100, 100, null), stringAt("high", 150, 150)]);
    expect(pair.interval95Cents).toBeNull();
  });

  it("leaves out strings that were not heard and pairs near no small ratio", () => {
    expect(pairsInTurn([stringAt("C3", 130.8, 130.8), stringAt("G3", null, 196)])).toEqual([]);
    // A tempered major third, 400 cents, is 98 from a fourth; a fifth 41 cents wide is not in use yet.
    expect(pairsInTurn([tempered("C3", 48), tempered("E3", 52)])).toEqual([]);
    expect(pairsInTurn([stringAt("low", 100, 100), stringAt("high", movedHz(150, 41), 150)])).toEqual([]);
  });

  it("names the lower string first, in whatever order they are given, each pair once", () => {
    const strings = [tempered("G4", 67), tempered("C2", 36), tempered("G2", 43), tempered("C3", 48)];
    const named = pairsInTurn(strings).map(({ lower, upper, ratio }) => `${lower} ${upper} ${ratio}`);
    expect(named).toEqual(["C2 G2 3:2", "C2 C3 2:1", "G2 C3 4:3", "G2 G4 4:1", "C3 G4 3:1"]);
  });

  it("gives beats that are those of the two common partials, for every mistuning", () => {
    const away = fc.double({ min: -39, max: 39, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 60, max: 400, noNaN: true }), away, (lowHz, byCents) => {
        const highHz = movedHz(1.5 * lowHz, byCents);
        const [pair] = pairsInTurn([stringAt("low", lowHz, lowHz), stringAt("high", highHz, 1.5 * lowHz)]);
        // The third partial of the lower string stays, the second of the upper one is 2^(c / 1200) times as high.
        const beats = 3 * lowHz * Math.abs(2 ** (byCents / 1200) - 1);
        expect(pair.beatsPerSecond).toBeCloseTo(beats, 9);
        expect(pair.centsFromPure).toBeCloseTo(byCents, 9);
      }),
      { seed: SEED },
    );
  });
});
