import { mkdirSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { takesNamed } from "../../cli/files/filesMatching.js";
import { runProgram } from "../../cli/program.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

let files: TestFiles;
beforeAll(() => {
  files = makeTestFiles();
  mkdirSync(files.path("Übung [2] & Tag"));
  for (const name of ["b.wav", "a 1.wav", "c.txt"]) {
    writeFileSync(files.path(`Übung [2] & Tag/${name}`), "no recording");
  }
  mkdirSync(files.path("takes"));
  for (const name of ["über 2.wav", "low.wav"]) writeFileSync(files.path(`takes/${name}`), "no recording");
});
afterAll(() => files.remove());

describe("takes that a shell leaves as a pattern", () => {
  it("are the files that match, by name", () => {
    expect(takesNamed([files.path("takes/*.wav")])).toEqual([
      files.path("takes/low.wav"),
      files.path("takes/über 2.wav"),
    ]);
  });

  it("are the file itself where one is called so, brackets, spaces and letters of any kind in it", () => {
    const odd = files.path("Übung [2] & Tag/a 1.wav");
    expect(takesNamed([odd])).toEqual([odd]);
  });

  it("are told as not found where nothing matches", () => {
    let err = "";
    const code = runProgram(["measure", files.path("takes/*.flac")], {
      stdout: { write: () => {} },
      stderr: { write: (text) => (err += text) },
      colour: false,
    });
    expect(code).toBe(3);
    expect(err).toMatch(/takes\/\*\.flac was not found/);
  });
});
