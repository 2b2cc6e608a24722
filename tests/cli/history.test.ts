import {
  existsSync,
  linkSync,
  mkdirSync,
  readFileSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { appendLogLine, readLogFile } from "../../cli/files/logFile.js";
import { runProgram } from "../../cli/program.js";
import { logLimits } from "../../src/history/logLimits.js";
import { readLog } from "../../src/history/readLog.js";
import { logOf } from "../history/loggedTakes.js";
import { inventedTakes } from "../report/handMadeHistory.js";
import { makePipe, makeTestFiles, type TestFiles, toneHz } from "./testFiles.js";

let files: TestFiles;
let log = "";
const path = (name: string) => files.path(name);
beforeAll(() => {
  files = makeTestFiles();
});
afterAll(() => files.remove());
beforeEach(() => {
  log = path(`log-${Math.trunc(performance.now() * 1000)}`);
});

function run(...args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(args, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false },
    colour: false,
  });
  return { code, out, err };
}
const measure = (...options: readonly string[]) => run("measure", path("good.wav"), "--log", log, ...options);
const linesOf = () => readFileSync(log, "utf8").split("\n");

describe("measure --log", () => {
  it("makes the log, adds a line for each take, and prints the same as without it", () => {
    const plain = run("measure", path("good.wav"));
    const options = ["--temperature-c", "19.5", "--humidity-percent", "46", "--work", " new\n cotton "];
    const { code, out, err } = measure("--date", "2026-03-01 14:30", ...options);
    expect({ code, out }).toEqual({ code: plain.code, out: plain.out });
    expect(err).toContain("logged in");
    expect(err).toContain("2026-03-01 14:30");
    // No --force: nothing is written over.
    expect(measure("--date", "2026-03-04").code).toBe(0);
    expect(linesOf()).toHaveLength(3);
    const { takes, problems } = readLog(readFileSync(log, "utf8"));
    expect(problems).toEqual([]);
    expect(takes[0]).toMatchObject({
      file: "good.wav",
      takenAt: "2026-03-01T14:30",
      takenAtBasis: "given",
      temperatureC: 19.5,
      humidityPercent: 46,
      work: "new cotton",
      settings: { a4Hz: 440, tuning: null },
    });
    // The tone of the test file is known.
    expect(takes[0]!.strings[0]!.frequencyHz).toBeCloseTo(toneHz, 2);
    expect(takes[1]).toMatchObject({ takenAt: "2026-03-04", temperatureC: null, work: null });
  });

  it("goes by the file's time where no date is given, and says so", () => {
    const when = new Date(2025, 10, 5, 9, 8, 7);
    utimesSync(path("good.wav"), when, when);
    expect(measure().err).toContain("2025-11-05 09:08:07 by the time of its file (--date says another)");
    expect(readLog(readFileSync(log, "utf8")).takes[0]).toMatchObject({
      takenAt: "2025-11-05T09:08:07",
      takenAtBasis: "file-time",
    });
  });

  it("leaves every line whole where the last one was cut off at any byte", () => {
    const takes = inventedTakes().slice(0, 2);
    const [first, second] = takes.map((take) => `${JSON.stringify(take)}\n`) as [string, string];
    const added = `${JSON.stringify(inventedTakes()[2])}\n`;
    for (let at = 0; at <= second.length; at += 37) {
      writeFileSync(log, first + second.slice(0, at));
      appendLogLine(log, added);
      const { takes: read, problems } = readLog(readLogFile(log));
      const isWhole = at >= second.length - 1;
      expect(read.map(({ takenAt }) => takenAt)).toEqual(
        inventedTakes()
          .slice(0, 3)
          .filter((_, i) => i !== 1 || isWhole)
          .map(({ takenAt }) => takenAt),
      );
      expect(problems).toHaveLength(isWhole || at === 0 ? 0 : 1);
      expect(readFileSync(log, "utf8").startsWith(first + second.slice(0, at))).toBe(true);
    }
  });

  it.each<[string, string, string]>([
    ["words", "my notes\n", "is no log"],
    ["a document", '{\n  "schemaVersion": 1\n}\n', "is no log"],
    ["an empty first line", "\n", "is no log"],
  ])("appends nothing to %s, and measures nothing", (_name, content, words) => {
    writeFileSync(log, content);
    const { code, out, err } = measure();
    expect({ code, out }).toEqual({ code: 4, out: "" });
    expect(err).toContain(words);
    expect(readFileSync(log, "utf8")).toBe(content);
  });

  it("appends to an empty file and to a log by another name, never to an input by any name", () => {
    writeFileSync(log, "");
    expect(measure().code).toBe(0);
    linkSync(path("good.wav"), `${log}.wav`);
    const size = statSync(path("good.wav")).size;
    const { code, err } = run("measure", path("good.wav"), "--log", `${log}.wav`);
    expect(code).toBe(4);
    expect(err).toContain("never written over");
    expect(statSync(path("good.wav")).size).toBe(size);
  });

  it("refuses folders, pipes, and a folder that is not there", () => {
    mkdirSync(log);
    expect(measure()).toMatchObject({ code: 4, out: "" });
    expect(run("measure", path("good.wav"), "--log", path("no/where.log"))).toMatchObject({
      code: 4,
      out: "",
    });
    expect(existsSync(path("no"))).toBe(false);
    if (makePipe(`${log}.pipe`))
      expect(run("measure", path("good.wav"), "--log", `${log}.pipe`)).toMatchObject({ code: 4, out: "" });
  });

  it("appends nothing to a log that is as large as one may be", () => {
    writeFileSync(log, logOf(inventedTakes()));
    truncateSync(log, logLimits.fileBytes);
    const { code, err } = measure();
    expect(code).toBe(4);
    expect(err).toContain("Begin another");
    truncateSync(log, logLimits.fileBytes + 1);
    expect(run("history", log)).toMatchObject({ code: 3, out: "" });
  });

  it("does not log a take in which nothing was measured", () => {
    const { code, err } = run(
      "measure",
      path("text.wav"),
      path("good.wav"),
      "--log",
      log,
      "--date",
      "2026-03-01",
    );
    expect(code).toBe(1);
    expect(linesOf()).toHaveLength(2);
    expect(err.match(/logged in/g)).toHaveLength(1);
  });

  it.each<[string, readonly string[], string]>([
    ["a date without a log", ["--date", "2026-03-01"], "--log"],
    ["weather without a log", ["--temperature-c", "20", "--work", "x"], "--temperature-c, --work can only"],
    ["a day that is not there", ["--log", "x", "--date", "2026-02-30"], "2026-03-01"],
    ["a date of another kind", ["--log", "x", "--date", "1.3.2026"], "2026-03-01"],
    ["a temperature beyond sense", ["--log", "x", "--temperature-c", "200"], "-30 to 60"],
    ["humidity beyond all", ["--log", "x", "--humidity-percent", "101"], "0 to 100"],
    ["no words", ["--log", "x", "--work", "  "], "few words"],
    ["one file for two things", ["--log", "x", "--csv", "./x"], "same file"],
  ])("refuses %s", (_name, options, words) => {
    const { code, err } = run("measure", path("good.wav"), ...options);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });
});

describe("history", () => {
  const text = () => logOf(inventedTakes());

  it("prints what the log holds", () => {
    writeFileSync(log, text());
    const { code, out, err } = run("history", log);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain("9 takes");
    expect(out).toContain("G3, target 196.00 Hz");
  });

  it("leaves out bad lines, says which, and ends with 1; a take twice is no fault", () => {
    writeFileSync(log, `${text()}${text().slice(0, 300)}`);
    const { code, out, err } = run("history", log);
    expect(code).toBe(1);
    expect(err).toContain("line 10 was left out: it breaks off");
    expect(out).toContain("9 takes");
    writeFileSync(log, text() + text().slice(0, text().indexOf("\n")));
    expect(run("history", log)).toMatchObject({ code: 0, err: "" });
  });

  it("reads the rest of a file with bytes that are no text", () => {
    const bytes = Buffer.from(text());
    bytes[40] = 0xff;
    writeFileSync(log, bytes);
    const { code, out } = run("history", log, "--json");
    expect(code).toBe(1);
    const { problems, instruments } = JSON.parse(out);
    expect(problems).toMatchObject([{ line: 1 }]);
    expect(instruments[0].takes).toHaveLength(8);
  });

  it("shows one string, and takes from a day on", () => {
    writeFileSync(log, text());
    const { out } = run("history", log, "--string", "G3", "--since", "2026-03-21", "--json");
    const [one] = JSON.parse(out).instruments;
    expect(one.strings.map(({ name }: { name: string }) => name)).toEqual(["G3"]);
    expect(one.takes.map(({ takenAt }: { takenAt: string }) => takenAt)).toEqual([
      "2026-03-21",
      "2026-03-25",
      "2026-03-29",
      "2026-04-02",
    ]);
    const unknown = run("history", log, "--string", "A9");
    expect(unknown).toMatchObject({ code: 2, out: "" });
    expect(unknown.err).toContain("C2, G2, C3, G3, D4, G4");
    expect(run("history", log, "--since", "soon").code).toBe(2);
  });

  it("ends with 3 where nothing can be used", () => {
    writeFileSync(log, "words\n");
    const { code, out, err } = run("history", log, "--html", `${log}.html`);
    expect({ code, out }).toEqual({ code: 3, out: "" });
    expect(err).toContain("line 1 was left out");
    expect(existsSync(`${log}.html`)).toBe(false);
    expect(JSON.parse(run("history", log, "--json").out)).toMatchObject({
      instruments: [],
      problems: [{ line: 1 }],
    });
    writeFileSync(log, "");
    expect(run("history", log).code).toBe(3);
    expect(run("history", `${log}.none`)).toMatchObject({ code: 3, out: "" });
    writeFileSync(log, text());
    expect(run("history", log, "--since", "2030-01-01").code).toBe(3);
  });

  it("goes from measure to history by itself: two takes of one sound differ by nothing", () => {
    for (const date of ["2026-03-01", "2026-03-07"])
      expect(measure("--date", date, "--tuning", "alto").code).toBe(0);
    const { code, out } = run("history", log, "--json");
    expect(code).toBe(0);
    const [one] = JSON.parse(out).instruments;
    expect(one.name).toBe("alto");
    expect(one.strings[0]).toMatchObject({
      name: "G2",
      takes: [{}, { change: { cents: 0, days: 6, verdict: "stood" } }],
    });
  });
});
