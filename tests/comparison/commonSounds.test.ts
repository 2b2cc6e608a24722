import { describe, expect, it } from "vitest";
import { commonSounds, soundsAmong } from "../../src/comparison/commonSounds.js";
import { type StringLevels, takeOfStrings } from "./takeOfStrings.js";

const string = (name: string, frequencyHz: number): StringLevels => ({
  name,
  frequencyHz,
  partialsDb: [-20, -26],
});
const C2 = string("C2", 65.4);
const G2 = string("G2", 98);
const D4 = string("D4", 293.7);

describe("commonSounds", () => {
  it("keeps what every take of every side has, and says who lacks the rest in how many takes", () => {
    const { common, missing } = commonSounds([
      { name: "A", takes: [takeOfStrings([C2, G2]), takeOfStrings([C2, G2, D4])] },
      { name: "B", takes: [takeOfStrings([C2]), takeOfStrings([C2])] },
    ]);
    expect(common).toEqual([["C2"]]);
    expect(missing).toEqual([
      { strings: ["G2"], side: "B", takeCount: 2 },
      { strings: ["D4"], side: "A", takeCount: 1 },
      { strings: ["D4"], side: "B", takeCount: 2 },
    ]);
  });

  it("takes a set that sounded together for one sound, other than its strings alone", () => {
    const together = takeOfStrings([C2, G2], { together: [["C2", "G2"]] });
    const alone = takeOfStrings([C2, G2]);
    expect(
      commonSounds([
        { name: "A", takes: [together] },
        { name: "B", takes: [alone] },
      ]).common,
    ).toEqual([]);
    expect(
      commonSounds([
        { name: "A", takes: [together] },
        { name: "B", takes: [together] },
      ]).common,
    ).toEqual([["C2", "G2"]]);
    // A string called as the pair would be written is not the pair.
    const odd = takeOfStrings([string("C2,G2", 98)]);
    expect(
      commonSounds([
        { name: "A", takes: [together] },
        { name: "B", takes: [odd] },
      ]).common,
    ).toEqual([]);
  });

  it("picks a take's sounds by the set", () => {
    const { sounds } = takeOfStrings([C2, G2, D4], { together: [["C2", "G2"]] });
    expect(soundsAmong(sounds, [["D4"], ["C2"]]).map(({ strings }) => strings)).toEqual([["D4"]]);
    expect(soundsAmong(sounds, [["C2", "G2"]]).map(({ strings }) => strings)).toEqual([["C2", "G2"]]);
  });
});
