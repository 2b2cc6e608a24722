import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { microphoneDb } from "../../src/body/microphoneDb.js";
import { readMicrophoneResponse } from "../../src/body/readMicrophoneResponse.js";
import { AnalysisError } from "../../src/errors.js";

function problemOf(text: string): { line: number; problem: string } | null {
  try {
    readMicrophoneResponse(text);
    return null;
  } catch (error) {
    if (error instanceof AnalysisError && error.is("microphone-invalid")) return error.details;
    throw error;
  }
}

describe("readMicrophoneResponse", () => {
  it.each([
    ["spaces", "20 -3\n100 0\n"],
    ["tabs and a byte order mark", "\uFEFF20\t-3\r\n100\t0\r\n"],
    ["commas and a third column", "20, -3.0, 12\n100, 0.0, 5"],
    ["semicolons, remarks and a heading", '* invented\n# 2\n"Sens -38 dB"\nFrequency dB\n20;-3\n\n100;0'],
    ["exponents", "2e1 -3e0\n1E2 0"],
    ["commas alone", "20,-3,12\n100,0,5"],
  ])("reads a table with %s", (_, text) => {
    expect(readMicrophoneResponse(text).points).toEqual([
      { frequencyHz: 20, levelDb: -3 },
      { frequencyHz: 100, levelDb: 0 },
    ]);
  });

  it.each([
    ["20 -3\n100\n", 2, "not-two-numbers"],
    ["20 -3\nhello there\n", 2, "not-two-numbers"],
    ["20 -3\n20 0\n", 2, "not-rising"],
    ["100 0\n50 0\n", 2, "not-rising"],
    ["20 -3\n100 61\n", 2, "out-of-range"],
    ["0 -3\n100 1\n", 1, "out-of-range"],
    ["20 -3", 1, "too-few"],
    ["", 1, "too-few"],
    ["no numbers\nat all", 2, "too-few"],
    ["20,5 -3\n100 1", 1, "decimal-comma"],
    ["20,5;-3,0\n100 1", 1, "decimal-comma"],
    ["20 -3,5\n100 1", 1, "decimal-comma"],
  ])("refuses %j, line %d: %s", (text, line, problem) => {
    expect(problemOf(text)).toEqual({ line, problem });
  });

  it("throws nothing but its own error, whatever the text", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(..."0123456789.,- \n\t;e") })),
        (text) => {
          problemOf(text);
        },
      ),
    );
  });
});

describe("microphoneDb", () => {
  const response = readMicrophoneResponse("50 -6\n200 0\n800 0\n3200 4");

  it.each([
    [50, -6],
    // Half way between 50 and 200 Hz by ratio.
    [100, -3],
    [200, 0],
    [500, 0],
    [1600, 2],
    // Beyond the table its ends hold.
    [20, -6],
    [10_000, 4],
  ])("says of %d Hz %d dB", (frequencyHz, levelDb) => {
    expect(microphoneDb(response, frequencyHz)).toBeCloseTo(levelDb, 12);
  });
});
