import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { noteNameOfMidi } from "../../src/units/noteNameOfMidi.js";
import { temperaments } from "../../src/units/temperament.js";

const targetsOf = (yamlText: string, options = {}) => stringTargets(readInstrument(yamlText), options);

const hzByName = (targets: { name: string; targetHz: number }[]) =>
  Object.fromEntries(targets.map(({ name, targetHz }) => [name, Number(targetHz.toFixed(4))]));

/** A melody, a sympathetic, a drone and a trompette string on each of two notes. */
const bothKinds = (head: string) => `${head}
strings:
  - { name: melody D, role: melody, note: D4 }
  - { name: melody B, role: melody, note: B3 }
  - { name: sympathetic B, role: sympathetic, note: B3 }
  - { name: drone D, role: drone, note: D3 }
  - { name: drone C, role: drone, note: C3 }
  - { name: trompette B, role: trompette, note: B3 }
`;

// Frequencies are worked out to four decimals of a hertz in each comment, hence compared at four decimals.
describe("stringTargets", () => {
  it("without tonic: equal temperament, ISO 16:1975, 440 * 2^((m - 69) / 12)", () => {
    expect(hzByName(stringTargets(findTuning("alto")))).toEqual({
      C2: 65.4064,
      G2: 97.9989,
      C3: 130.8128,
      "C3 2": 130.8128,
      G3: 195.9977,
      D4: 293.6648,
      G4: 391.9954,
    });
  });

  it("equal with a tonic: drones pure, melody strings stay", () => {
    // Tonic C at 65.4064: G2 = 65.4064 * 3/2 = 98.1096. Melody G3 stays at 195.9977.
    expect(hzByName(stringTargets(findTuning("alto"), { tonic: "C" }))).toEqual({
      C2: 65.4064,
      G2: 98.1096,
      C3: 130.8128,
      "C3 2": 130.8128,
      G3: 195.9977,
      D4: 293.6648,
      G4: 391.9954,
    });
    // Tonic G: G1 = 48.9994 Hz, the C over it 4/3: 65.3326 and 130.6652; G2 stays.
    expect(hzByName(stringTargets(findTuning("alto"), { tonic: "g" }))).toMatchObject({
      C2: 65.3326,
      G2: 97.9989,
      C3: 130.6651,
      "C3 2": 130.8128,
    });
  });

  it("meantone on G, drones pure: G3 = 195.9977, G2 = 97.9989 Hz", () => {
    const targets = targetsOf(bothKinds("temperament: quarter-comma-meantone\ntonic: G"));
    expect(hzByName(targets)).toEqual({
      // 195.99772 * 5^(1/4) = 195.99772 * 1.49534878
      "melody D": 293.0849,
      // 195.9977 * 5/4 (four fifths up): pure in meantone as well
      "melody B": 244.9971,
      "sympathetic B": 244.9971,
      // 97.9989 * 3/2
      "drone D": 146.9983,
      // 97.9989 * 4/3
      "drone C": 130.6651,
      "trompette B": 244.9971,
    });
  });

  it("Pythagorean on G: sympathetic strings go with the melody, the trompette with the drones", () => {
    const targets = targetsOf(bothKinds("temperament: pythagorean\ntonic: G"));
    expect(hzByName(targets)).toMatchObject({
      // G3 = 195.9977: D4 = 3/2, 293.9966; B3 = 81/64, 248.0596
      "melody D": 293.9966,
      "melody B": 248.0596,
      "sympathetic B": 248.0596,
      // 195.9977 * 5/4
      "trompette B": 244.9971,
    });
  });

  it("drones tempered: they follow the temperament", () => {
    const targets = targetsOf(bothKinds("temperament: quarter-comma-meantone\ntonic: G\ndrones: tempered"));
    expect(hzByName(targets)).toMatchObject({
      // 97.9989 * 5^(1/4)
      "drone D": 146.5425,
      // a fifth down and an octave up: 97.9989 * 2 / 5^(1/4)
      "drone C": 131.0716,
    });
  });

  it("the tonic of the call wins over the file's", () => {
    const file = bothKinds("temperament: just\ntonic: G");
    // Tonic D at 146.83238: C3 is 9/5 over D2 = 73.41619: 132.14914.
    expect(hzByName(targetsOf(file, { tonic: "D" }))).toMatchObject({
      "drone D": 146.8324,
      "drone C": 132.1491,
    });
  });

  it("A4 of the call wins over the file's; a frequency of its own is not moved by it, nor by the tonic", () => {
    const file = `a4Hz: 442
strings:
  - { role: drone, note: A2 }
  - { name: fixed, role: drone, frequencyHz: 100, note: A2, capo: [2] }
  - { name: bare, role: drone, frequencyHz: 100, capo: [12] }
`;
    expect(hzByName(targetsOf(file))).toEqual({ A2: 110.5, fixed: 100, bare: 100 });
    expect(hzByName(targetsOf(file, { a4Hz: 415, tonic: "A" }))).toEqual({
      A2: 103.75,
      fixed: 100,
      bare: 100,
    });
    // 100 * 2^(2/12) = 112.2462; the note is the string's own raised by two, or the nearest: 200 Hz is G3 + 35 cents.
    const capo = new Map(Object.entries({ fixed: 2, bare: 12 }));
    const raised = targetsOf(file, { a4Hz: 440, capo });
    expect(hzByName(raised)).toEqual({ A2: 110, fixed: 112.2462, bare: 200 });
    expect(raised.map((target) => target.note)).toEqual(["A2", "B2", "G3"]);
  });

  it("a capo makes the string the higher note, placed by the temperament", () => {
    const capo = new Map([["C4", 2]]);
    const trompette = (options: object) =>
      stringTargets(findTuning("unison-pair"), options).find((target) => target.name === "C4");
    // Equal: D4. Pure over C4 = 261.6256: 9/8, 294.3288. Over G3 = 195.9977: 3/2, 293.9966.
    expect(trompette({ capo })).toMatchObject({ note: "D4", targetHz: expect.closeTo(293.6648, 4) });
    expect(trompette({ capo, tonic: "C" })?.targetHz).toBeCloseTo(294.3288, 4);
    expect(trompette({ capo, tonic: "G" })?.targetHz).toBeCloseTo(293.9966, 4);
    expect(trompette({ capo: new Map([["C4", 0]]) })?.targetHz).toBeCloseTo(261.6256, 4);
  });

  it("adds the wanted offset last", () => {
    const file = "strings: [{ role: melody, note: A4, offsetCents: 1 }]";
    expect(targetsOf(file)[0]?.targetHz).toBeCloseTo(440 * 1.00057779, 5); // the cent as printed to 8 decimals
  });

  it("reads tonics at the ends of the octave: Cb is B, B# is C", () => {
    const file = "strings: [{ role: drone, note: B2 }, { role: drone, note: C3 }]";
    expect(targetsOf(file, { tonic: "Cb" })).toEqual(targetsOf(file, { tonic: "B" }));
    expect(targetsOf(file, { tonic: "B#" })).toEqual(targetsOf(file, { tonic: "C" }));
  });

  it.each([
    [
      { a4Hz: 299 },
      "value-out-of-range",
      { name: "a4Hz", given: 299, allowedMinimum: 300, allowedMaximum: 600 },
    ],
    [{ a4Hz: Number.NaN }, "value-out-of-range", { name: "a4Hz" }],
    [{ tonic: "H" }, "note-name-invalid", { given: "H" }],
    [
      { capo: new Map([["D5", 2]]) },
      "string-unknown",
      { option: "capo", given: "D5", known: "G2, C3, G3, C4, G4, G4 2" },
    ],
    [{ capo: new Map([["C4", 3]]) }, "capo-not-available", { string: "C4", given: 3, available: "2" }],
    [{ capo: new Map([["G2", 2]]) }, "capo-not-available", { string: "G2", given: 2, available: "none" }],
    [{ capo: new Map([["C4", Number.NaN]]) }, "capo-not-available", { string: "C4" }],
  ])("refuses %j", (options, code, details) => {
    try {
      stringTargets(findTuning("unison-pair"), options);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(AnalysisError);
      expect(error).toMatchObject({ code, details });
    }
  });

  it("finds a string for the capo whose accents were composed differently", () => {
    const file = "strings: [{ name: me\u0301lodie, role: melody, note: G4, capo: [2] }]";
    for (const name of ["me\u0301lodie", "m\u00e9lodie"]) {
      expect(targetsOf(file, { capo: new Map([[name, 2]]) })[0]?.note).toBe("A4");
    }
  });

  it("in every temperament and tonic a target lies near equal temperament and scales with A4", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...temperaments),
        fc.integer({ min: 0, max: 11 }),
        fc.integer({ min: 24, max: 90 }),
        fc.constantFrom("melody", "drone"),
        fc.double({ min: 300, max: 600, noNaN: true }),
        (temperament, tonicPitch, midi, role, a4Hz) => {
          const tonic = noteNameOfMidi(tonicPitch).replace("-1", "");
          const file = `temperament: ${temperament}\ntonic: ${tonic}\nstrings: [{ role: ${role}, note: ${noteNameOfMidi(midi)} }]`;
          const hz = (options = {}) => targetsOf(file, options)[0]?.targetHz ?? Number.NaN;
          const deviationCents = 1200 * Math.log2(hz() / 440) - 100 * (midi - 69);
          // The widest of the four tables: meantone's sharp fourth, 579.47, 20.53 cents under equal.
          expect(Math.abs(deviationCents)).toBeLessThan(20.6);
          if (midi % 12 === tonicPitch) expect(deviationCents).toBeCloseTo(0, 8); // double rounding
          expect(hz({ a4Hz }) / hz()).toBeCloseTo(a4Hz / 440, 10);
        },
      ),
    );
  });
});
