import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { sympatheticDocumentSchema } from "../../src/sympathetic/sympatheticDocumentSchema.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { pluckTake } from "../sympathetic/pluckTake.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-sympathetic-"));
const path = (name: string) => join(folder, name);

beforeAll(() => {
  const take = pluckTake({ seed: 31, notes: [67, 69], decaySeconds: [2, 4], noiseDb: 50 });
  writeFileSync(path("plucks.wav"), encodeWav([take.samples], take.sampleRateHz, "16"));
  writeFileSync(path("noise.wav"), encodeWav([take.samples.slice(0, 24000)], take.sampleRateHz, "16"));
  writeFileSync(path("text.wav"), "no sound\n");
  writeFileSync(
    path("instrument.yaml"),
    "name: Bench\nstrings:\n  - { name: low, role: sympathetic, note: G4 }\n  - { name: high, role: sympathetic, note: A4 }\n" +
      "  - { name: top, role: melody, note: E5 }\n",
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(...args: string[]) {
  let out = "";
  let err = "";
  const code = runProgram(["sympathetic", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false, columns: 80 },
    colour: false,
  });
  return { code, out, err };
}

describe("sympathetic", () => {
  it("reads the instrument's sympathetic strings, and only these", () => {
    const { code, out, err } = run(path("plucks.wav"), "--instrument", path("instrument.yaml"));
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/^ {2}low +392\.00/m);
    expect(out).not.toMatch(/^ {2}top/m);
  });

  it("prints one document with --json", () => {
    const { code, out } = run(path("plucks.wav"), "--instrument", path("instrument.yaml"), "--json");
    expect(code).toBe(0);
    const document = sympatheticDocumentSchema.parse(JSON.parse(out));
    expect(document.strings.map(({ name, status }) => [name, status])).toEqual([
      ["low", "measured"],
      ["high", "measured"],
    ]);
  });

  it("looks for other strings where they are named, and for notes without an instrument", () => {
    const named = run(path("plucks.wav"), "--instrument", path("instrument.yaml"), "--strings", "low,top");
    expect(named.out).toMatch(/^ {2}top .*not heard/m);
    expect(run(path("plucks.wav")).out).toMatch(/^ {2}G4 +392\.00/m);
  });

  it("refuses what it can't use", () => {
    expect(run(path("plucks.wav"), "--all").code).toBe(2);
    const none = run(path("plucks.wav"), "--tuning", "alto");
    expect(none.code).toBe(2);
    expect(none.err).toContain("names no sympathetic strings");
    const unknown = run(path("plucks.wav"), "--instrument", path("instrument.yaml"), "--strings", "lowest");
    expect(unknown.code).toBe(2);
    expect(unknown.err).toContain("lowest");
    expect(
      run(path("plucks.wav"), "--instrument", path("instrument.yaml"), "--all", "--strings", "low").code,
    ).toBe(2);
    expect(run(path("text.wav")).code).toBe(3);
    expect(run(path("missing.wav")).code).toBe(3);
    expect(run(path("noise.wav"), "--instrument", path("instrument.yaml")).code).toBe(3);
  });
});
