import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frequencyHzToMidi, midiToFrequencyHz } from "../../src/units/midiFrequency.js";
import { noteNameOfMidi } from "../../src/units/noteNameOfMidi.js";
import { parseNoteName } from "../../src/units/parseNoteName.js";

describe("midiToFrequencyHz", () => {
  // ISO 16:1975 (A4 = 440 Hz) with 440 * 2^((m - 69) / 12), printed to four decimals.
  it.each([
    ["C2", 65.4064],
    ["E2", 82.4069],
    ["G2", 97.9989],
    ["C3", 130.8128],
    ["D3", 146.8324],
    ["G3", 195.9977],
    ["D4", 293.6648],
    ["G4", 391.9954],
    ["A4", 440],
    ["G5", 783.9909],
  ])("%s", (note, expectedHz) => {
    expect(midiToFrequencyHz(parseNoteName(note).midi, 440)).toBeCloseTo(expectedHz, 4);
  });

  // Beats at the lowest common partial of equal-tempered intervals, A4 = 440: arithmetic; a published table
  // rounds the first four to .9, .6, .7 and 6.9 (Capleton, Theory and Practice of Piano Tuning, 2007).
  it.each([
    ["C4", "G4", 3, 2, 0.8858],
    ["F3", "C4", 3, 2, 0.5912],
    ["A3", "E4", 3, 2, 0.7449],
    ["F3", "A3", 5, 4, 6.929],
    ["C2", "G2", 3, 2, 0.2215],
  ])("%s-%s beats", (lower, upper, p, q, expectedBeats) => {
    const lowerHz = midiToFrequencyHz(parseNoteName(lower).midi, 440);
    const upperHz = midiToFrequencyHz(parseNoteName(upper).midi, 440);
    // Half a unit of the last digit printed (three decimals for the third).
    expect(Math.abs(p * lowerHz - q * upperHz)).toBeCloseTo(expectedBeats, expectedBeats > 1 ? 3 : 4);
  });

  it("scales with A4", () => {
    expect(midiToFrequencyHz(57, 415)).toBeCloseTo(207.5, 10); // an octave is exactly 2
  });

  it("is undone by frequencyHzToMidi", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 131, noNaN: true }),
        fc.double({ min: 300, max: 600, noNaN: true }),
        (midi, a4Hz) => {
          // Double rounding: some 1e-14 of 131.
          expect(frequencyHzToMidi(midiToFrequencyHz(midi, a4Hz), a4Hz)).toBeCloseTo(midi, 10);
        },
      ),
    );
  });
});

describe("noteNameOfMidi", () => {
  it("spells the octave of middle C", () => {
    const names = Array.from({ length: 12 }, (_, index) => noteNameOfMidi(60 + index));
    expect(names.join(" ")).toBe("C4 C#4 D4 Eb4 E4 F4 F#4 G4 Ab4 A4 Bb4 B4");
  });

  it("names the nearest note", () => {
    expect(noteNameOfMidi(69.49)).toBe("A4");
    expect(noteNameOfMidi(69.51)).toBe("Bb4");
    expect(noteNameOfMidi(-1)).toBe("B-2");
  });

  it("is read back as the same note by parseNoteName, from C-1 to B9", () => {
    for (let midi = 0; midi <= 131; midi += 1) {
      const name = noteNameOfMidi(midi);
      expect(parseNoteName(name)).toEqual({ name, midi });
    }
  });
});
