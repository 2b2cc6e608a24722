import { describe, expect, it } from "vitest";
import { isSmall, judgePair } from "../../src/report/judgePair.js";
import { type PlannedString, plannedDocument } from "./handMadePairs.js";

/** Equal temperament at A4 = 440 Hz by its formula. */
const note = (midi: number) => 440 * 2 ** ((midi - 69) / 12);
const [C2, G2, C3, F3, C4, G4] = [36, 43, 48, 53, 60, 67].map(note) as [
  number,
  number,
  number,
  number,
  number,
  number,
];

function judged(lower: Omit<PlannedString, "name">, upper: Omit<PlannedString, "name">) {
  const document = plannedDocument([
    { ...lower, name: "lower" },
    { ...upper, name: "upper" },
  ]);
  const [take] = document.takes;
  return judgePair(take!.pairs[0]!, new Map(take!.strings.map((string) => [string.name, string])));
}

describe("judgePair", () => {
  it("knows the beats that equal temperament wants", () => {
    // 3 * 261.625565 - 2 * 391.995436 = 0.885825 and 3 * 65.406391 - 2 * 97.998859 = 0.221456 a second; Capleton, Theory and
    // Practice of Piano Tuning, 2007, rounds C4-G4 to .9. Frequencies in the document are rounded to 0.00001 Hz.
    const high = judged({ targetHz: C4, offCents: 0 }, { targetHz: G4, offCents: 0 });
    expect(high?.wantedBeatsPerSecond).toBeCloseTo(0.8858, 3);
    expect(high?.wantedCents).toBeCloseTo(-1.955, 3);
    expect(high).toMatchObject({ isTempered: true, state: "wanted" });
    const low = judged({ targetHz: C2, offCents: 0 }, { targetHz: G2, offCents: 0 });
    expect(low?.wantedBeatsPerSecond).toBeCloseTo(0.2215, 3);
    // A fourth is wide by as much as the fifth is narrow: 3 * 174.614116 - 4 * 130.812783 = 0.591216.
    const fourth = judged({ targetHz: C3, offCents: 0 }, { targetHz: F3, offCents: 0 });
    expect(fourth?.wantedBeatsPerSecond).toBeCloseTo(0.5912, 3);
    expect(fourth?.wantedCents).toBeCloseTo(1.955, 3);
  });

  it("wants drones that are pure to the tonic pure", () => {
    const pair = judged({ targetHz: C2, offCents: 0 }, { targetHz: 1.5 * C2, offCents: 0 });
    expect(pair?.wantedBeatsPerSecond).toBeLessThan(0.001);
    expect(pair).toMatchObject({ isTempered: false, state: "pure" });
  });

  it("goes by the target, not by pure, and leaves what can't be told from either", () => {
    const fifth = (offCents: number, half = 0.1) =>
      judged({ targetHz: C4, offCents: 0, half }, { targetHz: G4, offCents, half })?.state;
    expect(fifth(4)).toBe("off");
    expect(fifth(-4)).toBe("off");
    expect(fifth(4, 4)).toBe("wanted");
    // 1.955 cents over the target is pure; 3 cents over it is 1.05 wide, and 0.48 beats a second; 1.9 under it is no turn.
    expect(fifth(1.955)).toBe("pure");
    expect(fifth(3)).toBe("off");
    expect(fifth(3, 1)).toBe("pure");
    expect(fifth(-1.9)).toBe("near");
    expect(fifth(-2.1)).toBe("off");
  });

  it("needs more of a pair whose interval is not known", () => {
    const octave = (offCents: number) =>
      judged({ targetHz: C3, offCents: 0, half: null }, { targetHz: C4, offCents, half: null })?.state;
    expect(octave(2)).toBe("unsure");
    expect(octave(4)).toBe("off");
    expect(octave(0.5)).toBe("pure");
  });

  it("says nothing of a ratio that the targets do not mean", () => {
    // Two strings a whole tone apart by target, one of them 170 cents sharp: they happen to be 30 cents from a unison.
    expect(judged({ targetHz: C3, offCents: 170 }, { targetHz: note(50), offCents: 0 })).toBeNull();
  });

  it("holds less than a cent or a beat in 10 s to be small, of a beat to be counted twice that", () => {
    expect(isSmall(0.9, 1000)).toBe(true);
    expect(isSmall(1.1, 1000)).toBe(false);
    // 1.5 cents of 100 Hz are 0.087 Hz, 2 cents 0.116 Hz.
    expect(isSmall(1.5, 100)).toBe(true);
    expect(isSmall(-2, 100)).toBe(false);
    // Off from a beat that is counted: 3 cents of 100 Hz are 0.173 Hz, 4 cents 0.231 Hz.
    expect(isSmall(3, 100, true)).toBe(true);
    expect(isSmall(4, 100, true)).toBe(false);
    expect(isSmall(1.9, 1000, true)).toBe(true);
    expect(isSmall(2.1, 1000, true)).toBe(false);
  });
});
