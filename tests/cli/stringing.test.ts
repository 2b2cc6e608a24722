import { readFileSync, writeFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { stringingDocumentSchema } from "../../src/stringing/stringingDocumentSchema.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

const schemaFile = new URL("../../src/stringing/stringingDocument.schema.json", import.meta.url);
let files: TestFiles;
beforeAll(() => {
  files = makeTestFiles();
  const strings = (length: number) =>
    `strings:\n  - {name: top, role: melody, note: A4, lengthMm: ${length}, diameterMm: 0.4, material: steel}\n` +
    "  - {name: low, role: drone, note: A2, lengthMm: 420, massGrams: 2.1, cutLengthMm: 420}\n";
  writeFileSync(files.path("short.yaml"), `name: Short\n${strings(350)}`);
  writeFileSync(files.path("long.yaml"), `name: Long\n${strings(385)}`);
});
afterAll(() => files.remove());

function run(...args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(["stringing", ...args], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: false },
    colour: false,
  });
  return { code, out, err };
}

describe("stringing", () => {
  it("prints the sheet and ends with code 3 where nothing can be reckoned for any string", () => {
    writeFileSync(files.path("bare.yaml"), "name: Bare\nstrings: [{name: top, role: melody, note: G4}]\n");
    const { code, out } = run("--instrument", files.path("bare.yaml"));
    expect(code).toBe(3);
    expect(out).toMatch(/No tension can be given/);
  });

  it("needs no more than lengths to say how heavy strings would be, and ends with code 0", () => {
    writeFileSync(
      files.path("lengths.yaml"),
      "name: Lengths\nstrings: [{name: top, role: melody, note: G4, lengthMm: 345}]\n",
    );
    expect(run("--instrument", files.path("lengths.yaml"), "--tension", "60").code).toBe(0);
  });

  it("prints tensions, and another instrument beside them", () => {
    const { code, out } = run("--instrument", files.path("short.yaml"), "--against", files.path("long.yaml"));
    expect(code).toBe(0);
    // 93.58 N at 350 mm (tests/stringing); a tenth longer: 1.21 times as much.
    expect(out).toContain("93.6 (9.5)");
    expect(out).toMatch(/top +A4 +385 +113\.2 +\+21 %/);
  });

  it("prints a document that follows its schema, which is in step with its file", () => {
    const committed = readFileSync(schemaFile, "utf8");
    expect(committed).toBe(documentJsonSchema(stringingDocumentSchema));
    const options = ["--other-length", "385", "--retune", "low=B2", "--tension", "60", "--json"];
    const { code, out } = run("--instrument", files.path("short.yaml"), ...options);
    expect(code).toBe(0);
    const validate = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(committed));
    const document = JSON.parse(out);
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document.against).toBe("the same with melody strings of 385 mm, low tuned to B2");
    expect(document.comparison[1].note).toBe("B2");
  });

  it.each<[string, () => readonly string[], RegExp]>([
    ["no instrument", () => [], /--instrument/],
    ["a file that is not there", () => ["--instrument", files.path("none.yaml")], /was not found/],
    ["a bad instrument", () => ["--instrument", files.path("bad.yaml")], /line 4/],
    [
      "a string that is not there",
      () => ["--instrument", files.path("short.yaml"), "--retune", "mid=C3"],
      /--retune names a string "mid"/,
    ],
    [
      "no note",
      () => ["--instrument", files.path("short.yaml"), "--retune", "top=H4"],
      /"H4" is not a note name/,
    ],
    [
      "a length that nothing is built with",
      () => ["--instrument", files.path("short.yaml"), "--other-length", "9000"],
      /vibrating length in millimetres was given as 9000; allowed is 50 to 2000/,
    ],
    [
      "lengths that are not given",
      () => ["--instrument", files.path("comma.yaml"), "--other-length", "380"],
      /gives no vibrating length/,
    ],
    [
      "two things to set beside it",
      () => [
        ...["--instrument", files.path("short.yaml"), "--against", files.path("long.yaml")],
        ...["--other-length", "380"],
      ],
      /cannot be used with/,
    ],
    [
      "no number",
      () => ["--instrument", files.path("short.yaml"), "--tension", "much"],
      /Write a number of newtons/,
    ],
  ])("refuses %s with code 2 and a sentence", (_, args, sentence) => {
    const { code, out, err } = run(...args());
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(sentence);
    expect(err).not.toContain("    at ");
  });
});
