import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { tapDocumentSchema } from "../../src/tap/tapDocumentSchema.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { bowedOn, lightBody, RATE_HZ, stiffBody, tapsOn } from "../tap/exampleBodies.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-tap-"));
const path = (name: string) => join(folder, name);
const ALTO_HZ = [65.4064, 97.9989, 130.8128, 195.9977, 293.6648, 391.9954];

beforeAll(() => {
  const write = (name: string, samples: Float32Array) =>
    writeFileSync(path(name), encodeWav([samples], RATE_HZ, "24"));
  write("taps.wav", tapsOn(lightBody, 51, 5));
  write("stiff.wav", tapsOn(stiffBody, 52, 5));
  write("strings.wav", bowedOn(lightBody, 53, ALTO_HZ));
  write("silent.wav", new Float32Array(RATE_HZ));
  writeFileSync(path("text.wav"), "no sound\n");
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(...args: string[]) {
  let out = "";
  let err = "";
  const code = runProgram(["tap", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false, columns: 60 },
    colour: false,
  });
  return { code, out, err };
}

describe("tap", () => {
  it("prints a sheet: the answer first, two bodies, tapped over bowed, in 80 columns", () => {
    const { code, out, err } = run(
      path("taps.wav"),
      ...["--other", path("stiff.wav"), "--name", "light", "--other-name", "stiff"],
      ...["--bowed", path("strings.wav"), "--tuning", "alto"],
    );
    expect({ code, err }).toEqual({ code: 0, err: "" });
    const flat = out.replace(/\s+/g, " ");
    expect(out.indexOf("In short")).toBeLessThan(out.indexOf("Modes, light"));
    expect(flat).toContain("10 modes ring after 5 taps, the strongest:");
    expect(flat).toContain("2 differ in frequency beyond what is unsure: 172.");
    expect(flat).toMatch(/that at 388 Hz rings longer \(Q \+[56]\d %\)/);
    expect(flat).toContain("The taps of one take were made without setting up anew");
    // The body's modes at 215, 388 and 631 Hz stand alone in their bands, and both ways of playing show them.
    expect(flat).toMatch(/both show are the body's: near (\d+, )?200, 398, 631 Hz/);
    expect(flat).toContain("a mode of the room shows in both too");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("prints a document that its schema knows", () => {
    const { code, out } = run(path("taps.wav"), "--bowed", path("strings.wav"), "--tuning", "alto", "--json");
    expect(code).toBe(0);
    const document = tapDocumentSchema.strict().parse(JSON.parse(out));
    expect(document.takes).toHaveLength(1);
    expect(document.takes[0]!.modes).toHaveLength(lightBody.length);
    expect(document.takes[0]!.modes[2]).toMatchObject({ note: "A3", tapsFound: 5, strengthDb: 0 });
    expect(document.comparison).toBeNull();
    expect(document.bowed?.bands).toHaveLength(18);
  });

  it("goes on with the other takes, and ends with 1; with 3 where none is left", () => {
    const some = run(path("taps.wav"), path("text.wav"), "--json");
    expect(some.code).toBe(1);
    expect(JSON.parse(some.out).failed).toHaveLength(1);
    expect(some.err).toContain("is not a WAV file");
    expect(run(path("silent.wav"))).toMatchObject({ code: 3, out: "" });
    const bowed = run(path("strings.wav"));
    expect(bowed.code).toBe(3);
    expect(bowed.err).toContain("no mode could be read");
    expect(bowed.out).toContain("does not ring off as a tapped body does");
    const other = run(path("taps.wav"), "--other", path("text.wav"), "--json");
    expect(other.code).toBe(1);
    expect(JSON.parse(other.out).comparison).toBeNull();
  });

  it.each([
    [
      "another body beside several takes",
      ["a.wav", "b.wav", "--other", "c.wav"],
      "--other is used with one take",
    ],
    ["the other's name alone", ["a.wav", "--other-name", "x"], "--other-name NAME is used with --other"],
    ["a tuning without bowing", ["a.wav", "--tuning", "alto"], "use them with --bowed"],
    ["no take", [], "missing required argument"],
  ])("refuses %s", (_, args, words) => {
    const { code, err } = run(...args);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });
});
