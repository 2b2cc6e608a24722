import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import * as pages from "../../src/pages.js";
import { logOf } from "../history/loggedTakes.js";
import { inventedTakes } from "../report/handMadeHistory.js";
import { makePipe, makeTestFiles, type TestFiles } from "./testFiles.js";

const RUN_MS = 60_000;
let files: TestFiles;
let out = "";
const path = (name: string) => files.path(name);
const text = (name: string) => readFileSync(path(name), "utf8");

beforeAll(() => {
  files = makeTestFiles();
  writeFileSync(path("other.wav"), readFileSync(path("good.wav")));
  writeFileSync(
    path("bench.yaml"),
    "name: Bench <script>\nstrings:\n" +
      "  - { name: low, role: drone, note: G2, lengthMm: 400, linearDensityGramsPerMetre: 4 }\n" +
      '  - { name: "=top", role: melody, note: G2, lengthMm: 345, linearDensityGramsPerMetre: 0.9 }\n',
  );
  writeFileSync(path("bench.log"), logOf(inventedTakes()));
  writeFileSync(path("microphone.txt"), "20 0\n20000 0\n");
});
afterAll(() => files.remove());
beforeEach(() => {
  out = path(`out-${Math.trunc(performance.now() * 1000)}`);
  mkdirSync(out);
});

function run(...args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(
    args,
    {
      stdout: { write: (part) => (out += part) },
      stderr: { write: (part) => (err += part), isTTY: false, columns: 60 },
      colour: false,
    },
    pages,
  );
  return { code, out, err };
}

/** Every command that writes files, with inputs it can use, and the inputs that it must not write over. */
const commands: readonly [name: string, args: () => string[], inputs: readonly string[]][] = [
  ["measure", () => [path("good.wav"), "--instrument", path("bench.yaml")], ["good.wav", "bench.yaml"]],
  [
    "compare",
    () => [
      ...["--a", path("good.wav"), "--b", path("other.wav"), "--instrument", path("bench.yaml")],
      ...["--microphone", path("microphone.txt"), "--sounding", "low"],
    ],
    ["good.wav", "other.wav", "bench.yaml", "microphone.txt"],
  ],
  ["wheel", () => [path("good.wav"), "--instrument", path("bench.yaml")], ["good.wav", "bench.yaml"]],
  [
    "keyboard",
    () => [path("good.wav"), "--instrument", path("bench.yaml"), "--string", "=top"],
    ["good.wav", "bench.yaml"],
  ],
  [
    "trompette",
    () => [path("good.wav"), "--instrument", path("bench.yaml"), "--string", "low"],
    ["good.wav", "bench.yaml"],
  ],
  [
    "sympathetic",
    () => [path("good.wav"), "--instrument", path("bench.yaml"), "--all"],
    ["good.wav", "bench.yaml"],
  ],
  ["tap", () => [path("good.wav"), "--other", path("other.wav")], ["good.wav", "other.wav"]],
  ["check", () => [path("good.wav")], ["good.wav"]],
  ["history", () => [path("bench.log")], ["bench.log"]],
  ["stringing", () => ["--instrument", path("bench.yaml"), "--other-length", "380"], ["bench.yaml"]],
  ["tunings", () => [], []],
];

describe.each(commands)("%s, with files to write", (name, args, inputs) => {
  it(
    "writes a page and a table beside what it prints, and says so on stderr only",
    () => {
      const plain = run(name, ...args());
      const {
        code,
        out: printed,
        err,
      } = run(name, ...args(), "--html", `${out}/p.html`, "--csv", `${out}/t.csv`);
      expect(code).toBe(plain.code);
      expect(printed).toBe(plain.out);
      expect(err).toMatch(/wrote .*p\.html\n.*wrote .*t\.csv\n$/);
      expect(readdirSync(out).sort()).toEqual(["p.html", "t.csv"]);
      const html = readFileSync(`${out}/p.html`, "utf8");
      expect(html).toContain('<div class="answer">');
      expect(html).not.toMatch(/<script/i);
      expect(readFileSync(`${out}/t.csv`, "utf8")).toMatch(/^\uFEFF[a-zA-Z]+,.*\r\n/);
    },
    RUN_MS,
  );

  it(
    "leaves a file that is there, before any work, unless told",
    () => {
      writeFileSync(`${out}/p.html`, "mine");
      const { code, out: printed, err } = run(name, ...args(), "--html", `${out}/p.html`);
      expect({ code, printed }).toEqual({ code: 4, printed: "" });
      expect(err).toContain("--force");
      expect(readFileSync(`${out}/p.html`, "utf8")).toBe("mine");
      run(name, ...args(), "--html", `${out}/p.html`, "--force");
      expect(readFileSync(`${out}/p.html`, "utf8")).toMatch(/^<!doctype html>/);
    },
    RUN_MS,
  );

  it.each(inputs)("never writes over %s, which it reads", (input) => {
    const before = readFileSync(path(input));
    const { code, out: printed } = run(name, ...args(), "--csv", path(input), "--force");
    expect({ code, printed }).toEqual({ code: 4, printed: "" });
    expect(readFileSync(path(input)).equals(before)).toBe(true);
  });

  it("refuses a folder that is not there, and one file for both", () => {
    const missing = run(name, ...args(), "--html", `${out}/no/p.html`);
    expect({ code: missing.code, out: missing.out }).toEqual({ code: 4, out: "" });
    expect(existsSync(`${out}/no`)).toBe(false);
    expect(run(name, ...args(), "--html", `${out}/x`, "--csv", `${out}/x`).code).toBe(2);
  });
});

describe("what is no ordinary file", () => {
  const refused = (target: string, ...more: string[]) => {
    const { code, out: printed, err } = run("tunings", "--html", target, ...more);
    expect({ code, printed }).toEqual({ code: 4, printed: "" });
    expect(err).not.toContain("is there already");
    return err;
  };

  it.each([[], ["--force"]])("is refused as what it is: a folder %j", (...more) => {
    expect(refused(out, ...more)).toContain("is a folder");
    expect(readdirSync(out)).toEqual([]);
  });

  it.each([[], ["--force"]])("is refused as what it is: a pipe %j", (...more) => {
    const pipe = `${out}/pipe`;
    if (!makePipe(pipe)) return;
    expect(refused(pipe, ...more)).toContain("is not an ordinary file (a device, pipe or socket)");
    expect(statSync(pipe).isFIFO()).toBe(true);
  });

  it.runIf(existsSync("/dev/full"))("is refused as what it is: a device", () => {
    expect(refused("/dev/full", "--force")).toContain("is not an ordinary file (a device, pipe or socket)");
    expect(statSync("/dev/full").isCharacterDevice()).toBe(true);
  });
});

describe("demo, with files to write", () => {
  it.each(["measure", "compare"])(
    "writes the page and the table of %s",
    (what) => {
      const { code } = run("demo", what, "--html", `${out}/p.html`, "--csv", `${out}/t.csv`);
      expect(code).toBe(0);
      expect(readFileSync(`${out}/p.html`, "utf8")).toContain("<svg");
      expect(readFileSync(`${out}/t.csv`, "utf8").split("\r\n").length).toBeGreaterThan(4);
    },
    RUN_MS,
  );
});

describe("takes that can't be used", () => {
  it("write nothing, and the exit code says so", () => {
    const { code } = run("check", path("text.wav"), "--html", `${out}/p.html`);
    expect(code).toBe(3);
    expect(readdirSync(out)).toEqual([]);
    expect(text("text.wav")).toContain("not the samples");
  });
});
