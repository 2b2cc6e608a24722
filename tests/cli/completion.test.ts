import { execFileSync, spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

let files: TestFiles;
beforeAll(() => {
  files = makeTestFiles();
  for (const shell of ["bash", "zsh", "fish"])
    writeFileSync(files.path(`completion.${shell}`), script(shell));
  writeFileSync(files.path("low drone.wav"), "");
  writeFileSync(files.path("low melody.wav"), "");
});
afterAll(() => files.remove());

function run(...args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(["completion", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    colour: false,
  });
  return { code, out, err };
}

function script(shell: string): string {
  const { code, out } = run(shell);
  expect(code).toBe(0);
  return out;
}

function has(shell: string): boolean {
  return spawnSync(shell, ["-c", "exit 0"]).status === 0;
}

/** What bash itself offers for the last of some words, in the folder of the test's files. */
function bashOffers(...words: readonly string[]): string[] {
  const program = `source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
    _gurdybench; printf "%s\\n" "\${COMPREPLY[@]}"`;
  const out = execFileSync("bash", ["--norc", "-c", program, "-", files.path("completion.bash"), ...words], {
    cwd: files.path("."),
    encoding: "utf8",
  });
  return out.split("\n").filter((line) => line !== "");
}

/** What fish itself offers for a line that is being typed. */
function fishOffers(line: string): string[] {
  const out = execFileSync(
    "fish",
    ["--no-config", "-c", 'source $argv[1]; complete -C "$argv[2]"', files.path("completion.fish"), line],
    { cwd: files.path("."), encoding: "utf8", env: { ...process.env, HOME: files.path(".") } },
  );
  return out
    .split("\n")
    .filter((each) => each !== "")
    .map((each) => each.split("\t")[0]);
}

describe.skipIf(!has("bash"))("completion in bash", () => {
  it("offers commands, options and tunings", () => {
    expect(bashOffers("gurdybench", "tr")).toEqual(["trompette"]);
    expect(bashOffers("gurdybench", "measure", "--an")).toEqual(["--anchor"]);
    expect(bashOffers("gurdybench", "measure", "--tuning", "al")).toEqual(["alto", "alto-three"]);
    expect(bashOffers("gurdybench", "demo", "c")).toEqual(["compare"]);
  });

  it("offers files, names with spaces whole, and nothing where only the person knows", () => {
    expect(bashOffers("gurdybench", "measure", "low").sort()).toEqual(["low drone.wav", "low melody.wav"]);
    expect(bashOffers("gurdybench", "tap", "--bowed", "low d")).toEqual(["low drone.wav"]);
    expect(bashOffers("gurdybench", "measure", "--tonic", "")).toEqual([]);
    expect(bashOffers("gurdybench", "tunings", "low")).toEqual([]);
  });
});

describe.skipIf(!has("fish"))("completion in fish", () => {
  it("offers commands, options, tunings and files", () => {
    expect(fishOffers("gurdybench tr")).toEqual(["trompette"]);
    expect(fishOffers("gurdybench measure --an")).toEqual(["--anchor"]);
    expect(fishOffers("gurdybench measure --tuning al").sort()).toEqual(["alto", "alto-three"]);
    expect(fishOffers("gurdybench tap --bowed low\\ d")).toEqual(["low drone.wav"]);
  });
});

describe.skipIf(!has("zsh"))("completion in zsh", () => {
  it("loads beside the shell's own completions, and offers what is typed for", () => {
    // zsh completes in a terminal only: one is made for it, and Tab pressed.
    const program = [
      "zmodload zsh/zpty",
      "zpty shell zsh -f -i",
      "zpty -w shell \"PS1='> '; autoload -Uz compinit; compinit -u -D; source $1; echo LOADED-$((40+2))\"",
      'zpty -r -m shell line "*LOADED-42*"',
      "zpty -w -n shell $'gurdybench tromp\\t'",
      'zpty -r -m shell line "*trompette*"; print -r -- "$line"',
    ].join("\n");
    const out = execFileSync("zsh", ["-f", "-c", program, "-", files.path("completion.zsh")], {
      encoding: "utf8",
      timeout: 60_000,
      env: { ...process.env, HOME: files.path("."), TERM: "xterm" },
    });
    expect(out).toMatch(/gurdybench tromp.*ette/s);
  });
});

describe("completion", () => {
  it("refuses a shell it doesn't know, with the ones it does", () => {
    const { code, out, err } = run("csh");
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(/bash, zsh, fish/);
  });
});
