import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { trompetteDocumentSchema } from "../../src/trompette/trompetteDocumentSchema.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { trompetteTake } from "../trompette/trompetteTake.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-trompette-"));
const path = (name: string) => join(folder, name);
const INSTRUMENT = `name: Two
strings:
  - { name: left, role: trompette, note: C4 }
  - { name: right, role: trompette, note: D4 }
  - { name: bass, role: drone, note: G2 }
`;

beforeAll(() => {
  const write = (name: string, isStroked: boolean) => {
    const strokes = Array.from({ length: isStroked ? 16 : 0 }, (_, k) => ({
      onsetSeconds: 3.5 + 0.2 * k,
      durationSeconds: 0.1,
      strengthDb: -4,
      attackSeconds: 0.01,
      releaseSeconds: 0.01,
    }));
    const take = trompetteTake({
      seed: 601,
      frequencyHz: 261.6256,
      strokes,
      kind: "second-period",
      dropCents: 6,
      bowedSeconds: 6.5,
    });
    writeFileSync(path(name), encodeWav([take.samples], take.sampleRateHz, "16"));
  };
  const shown = readmeTake();
  writeFileSync(path("readme.wav"), encodeWav([shown.samples], shown.sampleRateHz, "16"));
  write("strokes.wav", true);
  write("-plain.wav", false);
  writeFileSync(path("instrument.yaml"), INSTRUMENT);
  writeFileSync(path("text.wav"), "no sound\n");
  writeFileSync(
    path("short.wav"),
    encodeWav([new Float32Array(4000).map((_, i) => Math.sin(i / 5))], 16_000, "16"),
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The take whose sheet the README shows: 1.4 turns a second, four strokes a turn, the 14th left out, the 18th 8 dB weaker. */
function readmeTake() {
  const random = new SeededRandom(1704);
  const strokes = Array.from({ length: 24 }, (_, k) => ({
    onsetSeconds: 7 + k / 5.6 + random.normal(0.003),
    durationSeconds: 0.09,
    strengthDb: -6 + random.normal(0.8) - (k === 17 ? 8 : 0),
    attackSeconds: 0.008,
    releaseSeconds: 0.008,
  })).filter((_, k) => k !== 13);
  return trompetteTake({
    seed: 1705,
    frequencyHz: 262.1,
    strokes,
    kind: "each-period",
    dropCents: 5,
    startSeconds: 0.8,
    bowedSeconds: 11,
    turnsPerSecond: 1.4,
    swingCents: 1.2,
    levelSwingDb: 0.8,
    jitterCents: 0.3,
    noiseDb: -38,
  });
}

function run(...args: string[]) {
  let out = "";
  let err = "";
  const code = runProgram(["trompette", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false, columns: 60 },
    colour: false,
  });
  return { code, out, err };
}

describe("trompette", () => {
  it("prints the sheet that the README shows", () => {
    const { code, out } = run(path("readme.wav"), "--tuning", "soprano");
    expect(code).toBe(0);
    const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    const [, shown = ""] = /An invented C4, four strokes a turn;.*?```text\n(.*?)```/s.exec(readme) ?? [];
    const lines = shown.split("\n").filter((line) => line.trim() !== "");
    expect(lines.length).toBeGreaterThan(15);
    for (const line of lines) expect(out.split("\n")).toContain(line);
  });

  it("prints a sheet, the answer first, and takes the instrument's trompette", () => {
    const { code, out, err } = run(path("strokes.wav"), "--tuning", "soprano");
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/In short\n {2}C4 buzzes: 16 strokes, 5\.0 a second/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("prints a document that its schema knows, turns counted by eye in it", () => {
    const { code, out } = run(
      path("strokes.wav"),
      "--tuning",
      "soprano",
      "--turns-per-second",
      "1.25",
      "--json",
    );
    expect(code).toBe(0);
    const document = trompetteDocumentSchema.strict().parse(JSON.parse(out));
    expect(document.strokes).toHaveLength(16);
    expect(document.settings.turnsPerSecond).toBe(1.25);
    // 5 strokes a second over 1.25 turns.
    expect(document.strokesPerTurn).toBeCloseTo(4, 1);
  });

  it("says that nothing buzzes, with exit code 0; a name with a dash in front goes after --", () => {
    const { code, out } = run(
      "--instrument",
      path("instrument.yaml"),
      "--string",
      "left",
      "--",
      path("-plain.wav"),
    );
    expect(code).toBe(0);
    expect(out).toContain("left does not buzz");
  });

  it("reads without an instrument too", () => {
    const { code, out } = run(path("strokes.wav"), "--json");
    expect(code).toBe(0);
    expect(trompetteDocumentSchema.parse(JSON.parse(out))).toMatchObject({ string: null, state: "strokes" });
  });

  const wrong: readonly [string, readonly string[], string][] = [
    ["an instrument without a trompette", ["--tuning", "alto"], "names no trompette"],
    ["two trompettes", ["--instrument", path("instrument.yaml")], "has 2 trompettes"],
    [
      "a string that is not there",
      ["--tuning", "soprano", "--string", "A4"],
      '"A4" that the instrument does not',
    ],
    ["a string of no instrument", ["--string", "C4"], "--instrument FILE or --tuning NAME"],
    ["turns that are none", ["--turns-per-second", "12"], "0.3 to 4"],
    ["an option that is not there", ["--order", "C4"], "--order"],
  ];
  for (const [what, args, sentence] of wrong) {
    it(`refuses ${what}`, () => {
      const { code, out, err } = run(path("strokes.wav"), ...args);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toContain(sentence);
    });
  }

  it("says what is wrong with a file that can't be used", () => {
    expect(run(path("missing.wav"))).toMatchObject({ code: 3, out: "" });
    const { code, err } = run(path("text.wav"));
    expect(code).toBe(3);
    expect(err).toContain("is not a WAV file");
    const short = run(path("short.wav"), "--tuning", "soprano");
    expect(short.code).toBe(3);
    expect(short.out).toContain("No string was heard");
  });
});
