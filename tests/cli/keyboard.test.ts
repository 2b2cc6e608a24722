import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { keyboardDocumentSchema } from "../../src/keyboard/keyboardDocumentSchema.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { scaleTake } from "../keyboard/scaleTake.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-keyboard-"));
const path = (name: string) => join(folder, name);
const INSTRUMENT = `name: Bench
temperament: just
tonic: G
strings:
  - { name: top, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: second, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: bass, role: drone, note: G2 }
`;

beforeAll(() => {
  const write = (name: string, off: number, seed: number) => {
    const played = Array.from({ length: 10 }, (_, key) => ({ key, seconds: 0.6 }));
    const centsOfKey = (key: number) => 100 * key + (key === 5 ? off : 0);
    const take = scaleTake({ openHz: 391.9954, played, centsOfKey, seed });
    writeFileSync(path(name), encodeWav([take.samples], take.sampleRateHz, "16"));
  };
  write("scale.wav", 8, 11);
  write("-other.wav", -4, 12);
  writeFileSync(path("instrument.yaml"), INSTRUMENT);
  writeFileSync(path("text.wav"), "no sound\n");
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(...args: string[]) {
  let out = "";
  let err = "";
  const code = runProgram(["keyboard", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false, columns: 60 },
    colour: false,
  });
  return { code, out, err };
}

describe("keyboard", () => {
  it("prints a sheet that says first what to do", () => {
    const { code, out, err } = run(
      path("scale.wav"),
      "--tuning",
      "alto",
      "--string",
      "G4",
      "--length-mm",
      "345",
    );
    expect(code).toBe(0);
    expect(err).toBe("");
    expect(out.indexOf("In short")).toBeLessThan(out.indexOf("Keys of G4"));
    expect(out).toMatch(/Turn towards the nut the tangents of key 5 \(C5\) by 1\.\d mm\./);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("prints a document that its schema knows", () => {
    const { code, out } = run(
      path("scale.wav"),
      "--tuning",
      "alto",
      "--string",
      "G4",
      "--length-mm",
      "345",
      "--json",
    );
    expect(code).toBe(0);
    const document = keyboardDocumentSchema.strict().parse(JSON.parse(out));
    expect(document.keys).toHaveLength(9);
    expect(document.keys[4]).toMatchObject({ key: 5, note: "C5", towards: "nut" });
    expect(document.bridgeShiftMm).toBeNull();
    expect(document.openBasis).toBe("heard");
  });

  it("takes length, keys and temperament from the instrument file", () => {
    const { out } = run(
      path("scale.wav"),
      "--instrument",
      path("instrument.yaml"),
      "--string",
      "top",
      "--json",
    );
    const document = keyboardDocumentSchema.parse(JSON.parse(out));
    expect(document.lengthMm).toBe(345);
    // A just fourth is 498.045 cents (arithmetic), so key 5 at 508 is 10 cents sharp of it.
    expect(Math.abs(document.keys[4].deviationCents - 9.955)).toBeLessThan(1);
    expect(document.missedKeys).toEqual([]);
  });

  it("compares two strings of the same keys; a name with a dash in front goes after --", () => {
    const { code, out } = run(
      ...["--instrument", path("instrument.yaml"), "--string", "top", "--other-string", "second"],
      ...[`--other=${path("-other.wav")}`, "--", path("scale.wav")],
    );
    expect(code).toBe(0);
    expect(out).toContain("top against second");
    expect(out).toMatch(/disagree\s+on\s+key\s+5\s+\(C5\)/);
  });

  it("goes on without the other scale where it can't be read, and says so by its exit code", () => {
    const other = ["--other", path("text.wav"), "--other-string", "second"];
    const { code, out, err } = run(
      ...[path("scale.wav"), "--instrument", path("instrument.yaml"), "--string", "top", ...other],
    );
    expect(code).toBe(1);
    expect(err).toContain("is not a WAV file");
    expect(out).toContain("Keys of top");
  });

  const wrong: readonly [string, readonly string[], string][] = [
    ["no string", ["--tuning", "alto"], "--string"],
    ["no instrument", ["--string", "G4"], "--instrument FILE or --tuning NAME"],
    [
      "a string that is not there",
      ["--tuning", "alto", "--string", "A4"],
      '"A4" that the instrument does not',
    ],
    ["a drone", ["--tuning", "alto", "--string", "G2"], "has no keys"],
    ["a length that is none", ["--tuning", "alto", "--string", "G4", "--length-mm", "34,5"], "345 or 345.5"],
    ["a length out of range", ["--tuning", "alto", "--string", "G4", "--length-mm", "9"], "50 to 2000"],
    ["half of a pair", ["--tuning", "alto", "--string", "G4", "--other", "x.wav"], "together"],
    [
      "a string against itself",
      ["--tuning", "alto", "--string", "G4", "--other", "x.wav", "--other-string", "G4"],
      "itself",
    ],
  ];
  for (const [what, args, sentence] of wrong) {
    it(`refuses ${what}`, () => {
      const { code, out, err } = run(path("scale.wav"), ...args);
      expect(code).toBe(2);
      expect(out).toBe("");
      expect(err).toContain(sentence);
    });
  }

  it("says what is wrong with a file that can't be used", () => {
    const { code, err } = run(path("missing.wav"), "--tuning", "alto", "--string", "G4");
    expect(code).toBe(3);
    expect(err).toContain("was not found");
  });
});
