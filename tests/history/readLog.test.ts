import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { logLimits } from "../../src/history/logLimits.js";
import { readLog } from "../../src/history/readLog.js";
import { startsLog } from "../../src/history/startsLog.js";
import { logLine } from "../../src/report/logLine.js";
import { handMadeDocument } from "../report/handMade.js";
import { loggedTake, logOf } from "./loggedTakes.js";

const takes = ["2026-03-01", "2026-03-07T14:30", "2026-03-09"].map((takenAt, i) =>
  loggedTake({
    takenAt,
    cents: { C2: 1.5 - i, G2: 0.5 * i },
    more: { file: `Stück ${i} 🪕.wav`, work: i === 1 ? "Wörk" : null },
  }),
);
const whole = logOf(takes);
const [line] = whole.split("\n") as [string];

describe("readLog", () => {
  it("reads every line, with and without the last line end, with marks and line ends of an editor", () => {
    for (const text of [
      whole,
      whole.trimEnd(),
      `\uFEFF${whole.replaceAll("\n", "\r\n")}`,
      `\n${whole}\n\n`,
    ]) {
      const { takes: read, problems, repeats } = readLog(text);
      expect(read).toEqual(takes);
      expect([...problems, ...repeats]).toEqual([]);
    }
  });

  it("loses at most the last line when the file is cut off at any byte", () => {
    const bytes = new TextEncoder().encode(whole);
    for (let at = 0; at <= bytes.length; at++) {
      const begun = new TextDecoder().decode(bytes.subarray(0, at));
      const { takes: read, problems } = readLog(begun);
      const ended = begun.split("\n").length - 1;
      // What stands behind the last line end is a whole line or none; a line is whole before its end is written.
      expect(read.length === ended || read.length === ended + 1).toBe(true);
      expect(read).toEqual(takes.slice(0, read.length));
      const rest = begun.slice(begun.lastIndexOf("\n") + 1);
      expect(problems).toEqual(
        rest === "" || read.length > ended ? [] : [{ line: ended + 1, reason: "half-written", field: null }],
      );
    }
  });

  it("loses no line beside one that was cut off at any byte and ended by the next append", () => {
    const cut = fc.integer({ min: 1, max: line.length - 1 });
    fc.assert(
      fc.property(cut, fc.integer({ min: 0, max: 3 }), (length, place) => {
        const lines = takes.map((take) => JSON.stringify(take));
        lines.splice(place, 0, line.slice(0, length));
        const { takes: read, problems } = readLog(`${lines.join("\n")}\n`);
        expect(read).toEqual(takes);
        expect(problems.map((one) => one.line)).toEqual([place + 1]);
      }),
      { seed: 8_204, numRuns: 200 },
    );
  });

  const bad: readonly [string, string, string, string | null][] = [
    ["words", "tuned the drones today", "not-json", null],
    ["a half line", line.slice(0, 200), "half-written", null],
    ["zeros of a lost block", "\0\0\0\0", "not-json", null],
    ["other JSON", '{"a":1}', "not-a-take", "schemaVersion"],
    ["a number", "42", "not-a-take", null],
    ["null", "null", "not-a-take", null],
    ["a newer version", line.replace('"schemaVersion":1', '"schemaVersion":2'), "newer-version", null],
    ["a day that is not there", line.replaceAll("2026-03-01", "2026-02-30"), "not-a-take", "takenAt"],
    [
      "a frequency below 0",
      line.replace(/"frequencyHz":[\d.]+/, '"frequencyHz":-1'),
      "not-a-take",
      "strings.0.frequencyHz",
    ],
    [
      "one without end",
      line.replace(/"frequencyHz":[\d.]+/, '"frequencyHz":1e999'),
      "not-a-take",
      "strings.0.frequencyHz",
    ],
    [
      "a range turned round",
      line.replace(/"interval95Cents":\[[^\]]*\]/, '"interval95Cents":[1,-1]'),
      "not-a-take",
      "strings.0.interval95Cents",
    ],
    ["a string twice", line.replace('"G2"', '"C2"'), "not-a-take", "strings"],
    ["bytes that are no text", line.replace("Meadow", "Mea\ufffdow"), "damaged", null],
    ["a line without end", `"${"x".repeat(logLimits.lineCharacters)}"`, "too-long", null],
  ];
  it.each(bad)("leaves out %s, tells it by its number, and uses the rest", (_name, text, reason, field) => {
    const { takes: read, problems } = readLog(`${line}\n${text}\n${logOf(takes.slice(1))}`);
    expect(read).toEqual(takes);
    expect(problems).toEqual([{ line: 2, reason, field }]);
  });

  it("counts a take that was logged twice once, and keeps what either line says", () => {
    const again = { ...takes[0]!, work: "cotton", toolVersion: "0.0.1", temperatureC: 21 };
    for (const text of [logOf([...takes, again]), logOf([again, ...takes])]) {
      const { takes: read, repeats } = readLog(text);
      expect(read).toHaveLength(3);
      expect(read.find(({ file }) => file === again.file)).toMatchObject({
        work: "cotton",
        temperatureC: 21,
      });
      expect(repeats).toHaveLength(1);
    }
    expect(readLog(logOf([...takes, again])).repeats).toEqual([{ line: 4, sameAsLine: 1 }]);
    const other = { ...takes[0]!, strings: takes[1]!.strings };
    expect(readLog(logOf([...takes, other])).repeats).toEqual([]);
  });

  it("reads back what is written, on one line, whatever is in the names", () => {
    const names = fc.string({ unit: "binary", maxLength: 30 });
    fc.assert(
      fc.property(names, names, names, (file, instrument, work) => {
        const document = handMadeDocument(undefined, { instrument });
        const notes = {
          file,
          takenAt: "2026-03-01",
          takenAtBasis: "given",
          temperatureC: 20.5,
          humidityPercent: null,
          work,
        } as const;
        const written = logLine(document, document.takes[0]!, notes);
        expect(written.indexOf("\n")).toBe(written.length - 1);
        const { takes: read, problems } = readLog(written);
        expect(problems).toEqual([]);
        expect(read[0]).toMatchObject({ ...notes, instrument, lowRegisterDb: -5, findings: ["mains-hum"] });
        expect(read[0]!.strings.map(({ name, deviationCents }) => [name, deviationCents])).toEqual([
          ["C2", 2.5],
          ["G2", -1.76],
        ]);
        expect(startsLog(written.trimEnd())).toBe(true);
      }),
      { seed: 71_330, numRuns: 200 },
    );
  });
});

describe("startsLog", () => {
  it("knows its own first line, also a newer one and one that breaks off", () => {
    for (const own of [line, line.replace('"schemaVersion":1', '"schemaVersion":3'), line.slice(0, 80)]) {
      expect(startsLog(own)).toBe(true);
    }
  });

  it("knows no other", () => {
    for (const other of [
      "",
      "{",
      "[]",
      "null",
      "RIFF",
      line.slice(0, 20),
      '{"schemaVersion":1,"tool":"gurdybench"}',
      ` ${line.slice(0, 80)}`,
    ]) {
      expect(startsLog(other)).toBe(false);
    }
  });
});
