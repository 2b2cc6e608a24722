import { execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { inOneThread } from "./inOneThread.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

/** So many that they are worth another thread. */
const TAKES = 7;
const demoTake = fileURLToPath(new URL("../../fixtures/demo-take.wav", import.meta.url));
let files: TestFiles;
let command: BuiltCommand;
let names: string[];
beforeAll(async () => {
  files = makeTestFiles();
  command = await buildCommand();
  names = Array.from({ length: TAKES }, (_, i) => files.path(`take ${i}.wav`));
  for (const name of names) copyFileSync(demoTake, name);
  writeFileSync(files.path("broken.wav"), "RIFF....WAVEnothing");
});
afterAll(() => {
  files.remove();
  command.remove();
});

describe("several takes, read in several threads", () => {
  it("come out as they do one after another, in their order, the broken ones told", {
    timeout: 120_000,
  }, () => {
    const takes = [names[0]!, files.path("broken.wav"), ...names.slice(1), files.path("missing.wav")];
    const args = ["measure", ...takes, "--tuning", "soprano", "--json"];
    const [program, ...first] = command.start;
    const { status, stdout, stderr } = spawnSync(program, [...first, ...args], {
      encoding: "utf8",
      maxBuffer: 64e6,
    });
    const expected = inOneThread(args);
    expect({ code: status, out: stdout, err: stderr }).toEqual(expected);
    expect(expected.code).toBe(1);
    expect(JSON.parse(stdout).takes).toHaveLength(TAKES);
  });

  it("are compared as they are one after another", { timeout: 120_000 }, () => {
    const args = [
      "compare",
      "--a",
      ...names.slice(0, 3),
      "--b",
      ...names.slice(3),
      "--tuning",
      "soprano",
      "--json",
    ];
    const [program, ...first] = command.start;
    const out = execFileSync(program, [...first, ...args], {
      encoding: "utf8",
      maxBuffer: 64e6,
      stdio: "pipe",
    });
    expect(out).toBe(inOneThread(args).out);
  });
});
