import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { editInstrument } from "../../src/instrument/editInstrument.js";
import { instrumentProblems } from "../../src/instrument/instrumentProblems.js";
import { readInstrumentFields } from "../../src/instrument/readInstrumentFields.js";
import { instrumentProblem } from "./instrumentProblem.js";

const oneDrone = "strings:\n  - role: drone\n    note: C2\n";

describe("a hostile instrument file is refused", () => {
  it("a billion laughs: aliases that multiply tenfold a line", () => {
    const lines = ["a: &a [x, x, x, x, x, x, x, x, x, x]"];
    for (const [before, name] of ["ab", "bc", "cd", "de", "ef", "fg", "gh", "hi", "ij"].map((pair) => [
      ...pair,
    ])) {
      lines.push(`${name}: &${name} [${Array(10).fill(`*${before}`).join(", ")}]`);
    }
    expect(instrumentProblem(lines.join("\n"))?.problem).toMatch(/aliases repeat/);
  });

  it("an alias within its own anchor, and one without an anchor", () => {
    expect(instrumentProblem("name: &x [*x]\nstrings: *x\n")).toMatchObject({ line: 1, path: "name" });
    expect(instrumentProblem(`name: *nobody\n${oneDrone}`)).toMatchObject({
      line: 1,
      column: 7,
      problem: "alias *nobody has no anchor before it",
    });
  });

  it.each(["!&a :", "!!@\t:", "! : x\n", `name: ! 5\n${oneDrone}`])("a lone tag: %j", (text) => {
    expect(instrumentProblem(text)?.problem).toBe("tags (!) are not used here");
  });

  it("a megabyte", () => {
    expect(instrumentProblem(`${oneDrone}# ${"x".repeat(1_000_000)}`)?.problem).toMatch(/at most 65536/);
  });

  // A recursive composer would run out of stack, and with it end the whole process.
  it.each(["[", "{a: ", "- ", "? ", "a: ", "[{a: "])("%j nested by the thousand", (opening) => {
    const text = opening.repeat(Math.floor(60_000 / opening.length));
    expect(instrumentProblem(text)).toMatchObject({ line: 1, problem: "nested more than 16 deep" });
  });

  it("block mappings nested by indentation", () => {
    const text = Array.from({ length: 100 }, (_, depth) => `${" ".repeat(depth)}a:\n`).join("");
    expect(instrumentProblem(text)?.problem).toMatch(/deep/);
  });

  it.each(["__proto__", "constructor", "toString", "hasOwnProperty"])(
    "the key %s, which changes nothing",
    (key) => {
      expect(instrumentProblem(`${key}: { note: G4 }\n${oneDrone}`)).toMatchObject({
        line: 1,
        column: 1,
        path: key,
      });
      expect(instrumentProblem(`${oneDrone}    ${key}: { note: G4 }\n`)).toMatchObject({
        line: 4,
        column: 5,
        path: `strings[0].${key}`,
      });
      expect(({} as Record<string, unknown>).note).toBeUndefined();
    },
  );

  it("a merge key, also where YAML 1.1 is asked for", () => {
    expect(instrumentProblem(`${oneDrone}    <<: { keys: 3 }\n`)).toMatchObject({
      line: 4,
      path: "strings[0].<<",
    });
    expect(instrumentProblem(`%YAML 1.1\n---\n${oneDrone}    <<: { keys: 3 }\n`)).toMatchObject({ line: 6 });
  });

  it.each(["!!js/function", "!mine", "!!binary", "!!set"])("the tag %s", (tag) => {
    expect(instrumentProblem(`name: ${tag} x\n${oneDrone}`)).toMatchObject({
      line: 1,
      problem: "tags (!) are not used here",
    });
  });

  it("a key of a list", () => {
    expect(instrumentProblem(`? [a]\n: 3\n${oneDrone}`)?.problem).toMatch(/plain text/);
  });

  it("a long value or key does not make a long message", () => {
    const value = instrumentProblem(`tonic: ${"x".repeat(5000)}\n${oneDrone}`);
    expect(value?.problem.length).toBeLessThan(200);
    const key = instrumentProblem(`${"x".repeat(900)}: 3\n${oneDrone}`);
    expect(key?.path.length).toBeLessThan(60);
    expect(key?.problem.length).toBeLessThan(200);
  });

  const piece = fc.constantFrom(
    ..."[]{}:-?,&*!|>'\"%@`#\n\t\u0000\uD800 a1".split(""),
    "strings:",
    "  - ",
    "role: drone",
    "note: C2",
    "name: ",
    "\n    ",
    "&a ",
    "*a",
    "---\n",
    "<<: ",
    "\r\n",
  );
  const anyText = fc.array(piece, { maxLength: 30 }).map((pieces) => pieces.join(""));

  it("whatever the text, nothing but an error with a place comes out", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const problem = instrumentProblem(text);
        expect(instrumentProblems(text)[0]?.details ?? null).toEqual(problem);
        if (problem === null) return;
        expect(problem.line).toBeGreaterThanOrEqual(1);
        expect(problem.column).toBeGreaterThanOrEqual(1);
        expect(problem.problem).not.toBe("");
      }),
    );
  });

  it("an empty comment and line ends of both kinds, changed by a form", () => {
    const text = "name: x\nstrings:\n  - role: drone\n    note: #\n    \n\r\n";
    const set = editInstrument(text, { kind: "set", key: "a4Hz", text: "415" });
    expect(readInstrumentFields(set)).toEqual({ ...readInstrumentFields(text), a4Hz: "415" });
  });

  it("whatever the text, a form shows it and changes it, or there is an error with a place", () => {
    const before = fc.constantFrom(
      "",
      "strings:\n  - ",
      "name: x\nstrings:\n  - role: drone\n    note: ",
      "a4Hz: &a 3\nstrings:\n  - &b {role: drone}\n  - *b\nname: *a\n",
    );
    fc.assert(
      fc.property(before, anyText, (start, rest) => {
        const text = start + rest;
        let fields: ReturnType<typeof readInstrumentFields>;
        try {
          fields = readInstrumentFields(text);
        } catch (error) {
          expect(error instanceof AnalysisError && error.is("instrument-invalid")).toBe(true);
          return;
        }
        const set = editInstrument(text, { kind: "set", key: "a4Hz", text: "415" });
        expect(readInstrumentFields(set)).toEqual({ ...fields, a4Hz: "415" });
        const added = editInstrument(text, { kind: "add-string" });
        expect(readInstrumentFields(added).strings.slice(0, -1)).toEqual(fields.strings);
        const removed = editInstrument(text, { kind: "remove-string", string: 0 });
        expect(readInstrumentFields(removed).strings).toEqual(fields.strings.slice(1));
      }),
      { numRuns: 2000 },
    );
  });
});
