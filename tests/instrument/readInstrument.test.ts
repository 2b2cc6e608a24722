import { describe, expect, it } from "vitest";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { instrumentProblem } from "./instrumentProblem.js";

const wholeFile = `# everything that can be said
name: Long low-voiced, pear
a4Hz: 415
temperament: quarter-comma-meantone
tonic: g
drones: tempered
strings:
  - name: "  top melody "
    role: melody
    note: g4
    offsetCents: -2.5
    lengthMm: 345
    keys: 23
  - role: drone
    note: B♭1
    capo: [2, 4]
    linearDensityGramsPerMetre: 9.5
    massGrams: 4.2
    cutLengthMm: 442
    diameterMm: 1.2
    material: wound gut
  - role: trompette
    frequencyHz: 246.5
`;

/** One drone on lines 1 to 4; what is added begins on line 5. */
const oneDrone = "name: x\nstrings:\n  - role: drone\n    note: C2\n";

describe("readInstrument", () => {
  it("reads every entry", () => {
    const instrument = readInstrument(wholeFile);
    expect(instrument).toMatchObject({
      name: "Long low-voiced, pear",
      a4Hz: 415,
      temperament: "quarter-comma-meantone",
      tonic: "G",
      drones: "tempered",
    });
    expect(instrument.strings[0]).toEqual({
      name: "top melody",
      role: "melody",
      note: "G4",
      frequencyHz: null,
      offsetCents: -2.5,
      lengthMm: 345,
      keys: 23,
      capo: [],
      linearDensityGramsPerMetre: null,
      massGrams: null,
      cutLengthMm: null,
      diameterMm: null,
      material: null,
    });
    expect(instrument.strings[1]).toMatchObject({
      name: "Bb1",
      note: "Bb1",
      capo: [2, 4],
      linearDensityGramsPerMetre: 9.5,
      massGrams: 4.2,
      cutLengthMm: 442,
      diameterMm: 1.2,
      material: "wound gut",
    });
    // 246.5 Hz over A4 = 415 Hz lies 12 log2(246.5 / 415) = -9.02 semitones off: C4.
    expect(instrument.strings[2]).toMatchObject({ name: "C4", note: null, frequencyHz: 246.5 });
  });

  it("fills in what is left out", () => {
    expect(readInstrument("strings: [{ role: melody, note: G4 }]")).toMatchObject({
      name: "unnamed",
      a4Hz: 440,
      temperament: "equal",
      tonic: null,
      drones: "pure",
      strings: [{ name: "G4", offsetCents: 0, keys: null, lengthMm: null }],
    });
  });

  it("numbers nameless strings of one note, without touching given names", () => {
    const file = `strings:
  - { role: drone, note: C3 }
  - { role: melody, note: c3 }
  - { role: melody, note: C3, name: C3 2 }
  - { role: melody, note: C3 }
`;
    expect(readInstrument(file).strings.map((string) => string.name)).toEqual(["C3", "C3 3", "C3 2", "C3 4"]);
  });

  it("reads Windows line ends, a byte order mark, JSON and an alias", () => {
    const expected = readInstrument(oneDrone);
    expect(readInstrument(oneDrone.replaceAll("\n", "\r\n"))).toEqual(expected);
    expect(readInstrument(`\uFEFF${oneDrone}`)).toEqual(expected);
    expect(readInstrument('{"name": "x", "strings": [{"role": "drone", "note": "C2"}]}')).toEqual(expected);
    const twice = readInstrument("strings:\n  - &low { role: drone, note: C2 }\n  - *low\n");
    expect(twice.strings.map((string) => string.name)).toEqual(["C2", "C2 2"]);
  });

  it("keeps names in one Unicode form, so that a name typed in a terminal finds its string", () => {
    const decomposed = "me\u0301lodie";
    const file = `strings: [{ role: melody, note: G4, name: ${decomposed} }]`;
    expect(readInstrument(file).strings[0]?.name).toBe("mélodie");
  });

  // Line and column counted by hand in `oneDrone` followed by the text added.
  it.each([
    ["a note with H", oneDrone.replace("C2", "H2"), 4, 11, "strings[0].note", /German H/],
    ["A4 too high", `${oneDrone}a4Hz: 4400\n`, 5, 7, "a4Hz", /300 to 600 \(Hz\), not 4400/],
    ["A4 too low", `${oneDrone}a4Hz: 299.9\n`, 5, 7, "a4Hz", /300 to 600/],
    ["text for a number", `${oneDrone}a4Hz: high\n`, 5, 7, "a4Hz", /not "high"/],
    ["not a number", `${oneDrone}a4Hz: .nan\n`, 5, 7, "a4Hz", /300 to 600/],
    ["an empty entry", `${oneDrone}a4Hz:\n`, 5, 6, "a4Hz", /not empty/],
    ["an unknown temperament", `${oneDrone}temperament: Just\n`, 5, 14, "temperament", /equal, just/],
    ["a temperament without tonic", `${oneDrone}temperament: just\n`, 5, 14, "temperament", /needs a tonic/],
    ["a tonic with octave", `${oneDrone}tonic: G4\n`, 5, 8, "tonic", /without octave/],
    ["an unknown role", `${oneDrone}  - role: bass\n`, 5, 11, "strings[1].role", /melody, drone/],
    ["no role", `${oneDrone}  - note: G3\n`, 5, 5, "strings[1].role", /missing/],
    [
      "no note",
      `${oneDrone}  - name: a\n    role: drone\n`,
      5,
      5,
      "strings[1]",
      /needs a note, or a frequency/,
    ],
    [
      "frequency too low",
      `${oneDrone}    frequencyHz: 14.9\n`,
      5,
      18,
      "strings[0].frequencyHz",
      /15 to 5000/,
    ],
    ["a note too high", `${oneDrone}  - {role: drone, note: B9}\n`, 5, 25, "strings[1].note", /15 to 5000/],
    ["length too short", `${oneDrone}    lengthMm: 34.5\n`, 5, 15, "strings[0].lengthMm", /50 to 2000/],
    [
      "an offset too wide",
      `${oneDrone}    offsetCents: 301\n`,
      5,
      18,
      "strings[0].offsetCents",
      /-300 to 300/,
    ],
    ["a capo not whole", `${oneDrone}    capo: [2, 2.5]\n`, 5, 15, "strings[0].capo[1]", /whole number/],
    ["a capo of none", `${oneDrone}    capo: [0]\n`, 5, 12, "strings[0].capo[0]", /1 to 24/],
    ["a bare capo", `${oneDrone}    capo: 2\n`, 5, 11, "strings[0].capo", /\[2\]/],
    ["keys on a drone", `${oneDrone}    keys: 12\n`, 5, 11, "strings[0].keys", /melody/],
    ["a unit left out", `${oneDrone}    length: 345\n`, 5, 5, "strings[0].length", /lengthMm is meant/],
    ["a slip of a letter", `${oneDrone}    nots: C3\n`, 5, 5, "strings[0].nots", /note is meant/],
    ["an unknown key", `${oneDrone}colour: red\n`, 5, 1, "colour", /known are name, a4Hz/],
    ["a repeated key", `${oneDrone}    note: G2\n`, 5, 5, "", /note is given twice/],
    [
      "a control character",
      `${oneDrone}    name: "a\\e[2J"\n`,
      5,
      11,
      "strings[0].name",
      /control characters/,
    ],
    ["a turned reading direction", `${oneDrone}    name: "\\u202Ea"\n`, 5, 11, "strings[0].name", /control/],
    ["a blank name", `${oneDrone}    name: "  "\n`, 5, 11, "strings[0].name", /1 to 60/],
    ["a number for a name", `${oneDrone}    name: 12\n`, 5, 11, "strings[0].name", /must be text/],
    ["a tab", `${oneDrone}\tkeys: 1\n`, 5, 1, "", /tab/],
    ["a quote left open", `${oneDrone}foo: 'bar\n`, 6, 1, "", /quote/],
    ["two documents", `${oneDrone}---\nname: y\n`, 5, 1, "", /more than one document/],
    ["a word for a string", `${oneDrone}  - drone\n`, 5, 5, "strings[1]", /entries of one string/],
    ["no strings", "name: x\nstrings: []\n", 2, 10, "strings", /at least one/],
    ["strings missing", "name: x\n", 1, 1, "strings", /missing/],
    ["nothing", "", 1, 1, "", /not empty/],
    ["a list", "- a\n", 1, 1, "", /one instrument/],
    ["something else altogether", "RIFF\u0000\u0001WAVEfmt ", 1, 1, "", /one instrument/],
  ])("says where: %s", (_name, text, line, column, path, problem) => {
    expect(instrumentProblem(text)).toEqual({ line, column, path, problem: expect.stringMatching(problem) });
  });

  it("refuses a name given twice, at the second", () => {
    const file =
      "strings:\n  - {role: drone, note: C2, name: low}\n  - {role: drone, note: G2, name: ' low '}\n";
    expect(instrumentProblem(file)).toMatchObject({ line: 3, column: 35, path: "strings[1].name" });
  });

  it("reports what stands first in the file, however it was found", () => {
    const file = "name: x\ncolour: red\na4Hz: 4\nstrings: 3\n";
    expect(instrumentProblem(file)).toMatchObject({ line: 2, column: 1, path: "colour" });
  });

  it("reads 32 strings and no more", () => {
    const strings = (count: number) => `strings:\n${"  - {role: sympathetic, note: G4}\n".repeat(count)}`;
    expect(readInstrument(strings(32)).strings[31]?.name).toBe("G4 32");
    expect(instrumentProblem(strings(33))?.problem).toMatch(/at most 32/);
  });
});
