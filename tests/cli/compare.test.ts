import { copyFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

let files: TestFiles;
beforeAll(() => {
  files = makeTestFiles();
  copyFileSync(files.path("good.wav"), files.path("other.wav"));
});
afterAll(() => files.remove());

function run(...args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(["compare", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false, columns: 60 },
    colour: false,
  });
  return { code, out, err };
}

describe("compare, wrongly used", () => {
  it.each<[string, () => readonly string[], RegExp]>([
    ["one side only", () => ["--a", "x.wav"], /Name two sides at least/],
    [
      "a pattern that no file matches",
      () => ["--side", "old=nowhere-*.wav", "--b", "x.wav"],
      /--side old: no file matches/,
    ],
    ["sides named alike", () => ["--a", "x.wav", "--side", "A=y.wav"], /Two sides are called "A"/],
    [
      "names alike but for spaces",
      () => ["--a", "x.wav", "--b", "y.wav", "--a-name", " old", "--b-name", "old "],
      /Two sides are called "old"/,
    ],
    [
      "a side with a blank name",
      () => ["--a", "x.wav", "--b", "y.wav", "--a-name", " "],
      /Give each side a name/,
    ],
    ["a take on both sides", () => ["--a", "x.wav", "--b", "x.wav"], /x\.wav is named twice/],
    ["a take on both sides, by two paths", () => ["--a", "x.wav", "--b", "./x.wav"], /is named twice/],
    [
      "a low edge out of range, once however many takes",
      () => ["--a", files.path("good.wav"), "--b", files.path("other.wav"), "--low-edge", "40"],
      /^gurdybench: [^\n]* was given as 40; allowed is 45 to 2818\.\n$/,
    ],
    [
      "recordings for a microphone",
      () => ["--a", "x.wav", "--b", "y.wav", "--microphone", files.path("good.wav")],
      /is not plain text \(UTF-8\)\. Name the right file here/,
    ],
  ])("refuses %s with code 2 and a sentence on stderr", (_, args, needed) => {
    const { code, out, err } = run(...args());
    expect(err).toMatch(needed);
    expect(code).toBe(2);
    expect(out).toBe("");
  });

  it("lets no control character of a name or a pattern through", () => {
    for (const args of [
      ["--side", "o\u001b[31mld=none*.wav", "--b", "y.wav"],
      ["--side", "o\u001bld=x.wav", "--side", "o\u001bld=y.wav"],
      ["--a", "\u001b.wav", "--b", "\u001b.wav"],
    ]) {
      const { code, err } = run(...args);
      expect(code).toBe(2);
      expect(err).toContain("\\u{1b}");
      expect(err).not.toContain("\u001b");
    }
  });
});

describe("compare, with takes that can't be used", () => {
  it("goes on with the rest and ends with code 1", () => {
    const { code, out, err } = run(
      "--a",
      files.path("good.wav"),
      "--b",
      files.path("other.wav"),
      files.path("text.wav"),
    );
    expect(code).toBe(1);
    expect(err).toContain("text.wav is not a WAV file");
    expect(out).toContain("proves nothing");
  });

  it("ends with code 3 where a side has none left", () => {
    const { code, out, err } = run("--a", files.path("good.wav"), "--b", files.path("text.wav"));
    expect(code).toBe(3);
    expect(err).toContain("no take of B could be used");
    expect(out).toBe("");
  });
});
