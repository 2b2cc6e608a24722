import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { makePipe, makeTestFiles, type TestFiles } from "./testFiles.js";

// Bundling takes half a second alone and several where the machine is busy; so does starting Node.
const timeout = 60_000;

let files: TestFiles;
let command: BuiltCommand;
beforeAll(async () => {
  files = makeTestFiles();
  command = await buildCommand();
}, timeout);
afterAll(() => {
  files.remove();
  command.remove();
});

function run(args: readonly string[], shellTail?: string) {
  const [program, ...first] = command.start;
  const options = { cwd: files.folder, encoding: "utf8", timeout } as const;
  return shellTail === undefined
    ? spawnSync(program, [...first, ...args], options)
    : spawnSync(
        "bash",
        ["-o", "pipefail", "-c", `"$@" ${shellTail}`, "bash", program, ...first, ...args],
        options,
      );
}

describe("the command", () => {
  it("has a sentence for every kind of bad take, opens no pipe, and ends with code 3", { timeout }, () => {
    const hasPipe = makePipe(files.path("pipe.wav"));
    const before = readFileSync(files.path("text.wav"));
    const hostile = "zero\u001b[2J\u202e.wav";
    const names = ["folder.wav", "missing.wav", "empty.wav", "text.wav", "adpcm.wav", hostile];
    if (hasPipe) names.push("pipe.wav");
    const { status, stdout, stderr } = run(["measure", "--json", ...names]);
    expect(status).toBe(3);
    const lines = stderr.trim().split("\n");
    expect(lines).toHaveLength(names.length);
    expect(lines[0]).toContain("folder.wav is a folder");
    expect(lines[1]).toContain("missing.wav was not found");
    expect(lines[2]).toContain("empty.wav is empty");
    expect(lines[3]).toContain("text.wav is not a WAV file");
    expect(lines[4]).toContain("ADPCM");
    expect(lines[5]).toContain("zero\\u{1b}[2J\\u{202e}.wav holds no sound");
    if (hasPipe) expect(lines[6]).toContain("pipe.wav is not an ordinary file");
    expect(stderr + stdout).not.toMatch(/[\u001b\u202e]|\.ts:|\bat /);
    const document = JSON.parse(stdout);
    expect(document.takes).toEqual([]);
    expect(document.failed.map((one: { file: string }) => one.file)).toEqual(names);
    expect(readFileSync(files.path("text.wav"))).toEqual(before);
  });

  it("has what a command line needs, however the command and its instrument are named", { timeout }, () => {
    const [take, instrument] = ["take.wav", "instrument.yaml"].map((name) =>
      fileURLToPath(new URL(`../../fixtures/demo-${name}`, import.meta.url)),
    );
    const named = [
      ["measure", "--json", take, "--instrument", instrument],
      ["measure", "--json", take, `--instrument=${instrument}`],
      ["measure", "--json", take, "--tuning", "alto"],
    ].map((args) => {
      const { stdout, stderr } = run(args);
      expect(stderr).not.toContain("fault");
      return JSON.parse(stdout).instrument;
    });
    const [name] = /(?<=^name: ).*/m.exec(readFileSync(instrument, "utf8"))!;
    expect(named.slice(0, 2)).toEqual([name, name]);
    expect(named[2]).not.toBe(name);
    // The demo's strings have no weights, so their tension can't be had.
    for (const [code, ...args] of [
      [0, "tunings"],
      [0, "--", "tunings"],
      [0, "keyboard", "--help"],
      [3, "stringing", "--instrument", instrument],
    ] as const) {
      const { status, stdout, stderr } = run(args);
      expect([status, stderr]).toEqual([code, ""]);
      expect(stdout).not.toBe("");
    }
  });

  it("takes a name that begins with a dash", { timeout }, () => {
    const { status, stdout } = run(["check", "--", "-dash.wav"]);
    expect(status).toBe(0);
    expect(stdout).toContain("-dash.wav");
  });

  it("hands wrong usage to the shell as code 2", { timeout }, () => {
    expect(run(["measure", "--history", "y", "x.wav"]).status).toBe(2);
  });

  it("ends quietly when nobody reads on", { timeout }, () => {
    const { status, stderr } = run(["tunings"], "| true");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  });

  it.skipIf(!existsSync("/dev/full"))(
    "says with code 4 that the output can't be written",
    { timeout },
    () => {
      const { status, stderr } = run(["tunings"], "> /dev/full");
      expect(status).toBe(4);
      expect(stderr).toContain("can't be written");
    },
  );
});
