import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { compareDocumentSchema } from "../../src/comparison/compareDocumentSchema.js";
import { compareSides } from "../../src/comparison/compareSides.js";
import { AnalysisError } from "../../src/errors.js";
import { compareDocument } from "../../src/report/compareDocument.js";
import { documentJson } from "../../src/report/documentJson.js";
import { takeOfStrings, takeWithLowPart } from "../comparison/takeOfStrings.js";
import { handMadeCompareDocument, handMadeComparison, handMadeMeasure } from "./handMadeComparison.js";

/** As strict as can be: an unknown field is an error too. */
const strict = compareDocumentSchema.strict();

describe("compareDocument", () => {
  it("builds the shape that scripts depend on", () => {
    const document = handMadeCompareDocument();
    expect(strict.parse(document)).toEqual(document);
    // The field names of the contract, written out here a second time on purpose.
    expect(Object.keys(document.measures[0])).toEqual(
      expect.arrayContaining([
        "measure",
        "string",
        "unit",
        "primary",
        "sideA",
        "sideB",
        "a",
        "b",
        "sdA",
        "sdB",
        "takesA",
        "takesB",
        "difference",
        "interval95",
        "pAdjusted",
        "smallestDetectable",
        "verdict",
      ]),
    );
    expect(document.sides).toEqual([
      { name: "Pear", takeCount: 3, files: ["Pear-1.wav", "Pear-2.wav", "Pear-3.wav"] },
      { name: "Maple", takeCount: 3, files: ["Maple-1.wav", "Maple-2.wav", "Maple-3.wav"] },
    ]);
    expect(document.partialDifferences[0]).toMatchObject({
      string: "C2",
      number: 1,
      frequencyHz: 65.41,
      differenceDb: 3.15,
    });
    expect(document.bodyCurveDifference[0]).toMatchObject({
      frequencyHz: 63.1,
      differenceDb: 2.5,
      interval95Db: [0.5, 4.5],
    });
    expect(document.settings.lowEdgeHz).toBe(177.83);
    expect(document.verdict).toHaveLength(1);
  });

  it("is valid for what comparisons give: shown, single takes, nothing in common, three sides", () => {
    const side = (name: string, values: number[]) => ({
      name,
      takes: values.map((value) => takeWithLowPart(value)),
    });
    const other = takeOfStrings([{ name: "D4", frequencyHz: 293, partialsDb: [-10, -16] }]);
    for (const sides of [
      [side("A", [1, 1.2, 0.9]), side("B", [-1, -1.1, -0.8])],
      [side("A", [1]), side("B", [0])],
      [side("A", [1, 1]), side("B", [0, 0])],
      [side("A", [1, 2]), { name: "B", takes: [other] }],
      [side("A", [1, 1.5]), side("B", [0, 0.2]), side("C", [2, 2.2])],
    ]) {
      const document = handMadeCompareDocument(
        compareSides(sides, { equalGain: true, lowEdgeHz: 177.8 }),
        true,
      );
      const json: unknown = JSON.parse(documentJson(document));
      expect(strict.safeParse(json).error).toBeUndefined();
      expect(json).toEqual(document);
    }
  });

  it("lists takes that could not be used", () => {
    const comparison = handMadeComparison();
    const { failed } = compareDocument({
      ...{ toolVersion: "0", instrument: null, comparison, files: [] },
      settings: handMadeCompareDocument().settings,
      failed: [
        { file: "noise.wav", error: null },
        { file: "empty.wav", error: new AnalysisError("recording-empty", { durationSeconds: 0 }) },
      ],
    });
    expect(failed.map(({ file, code }) => [file, code])).toEqual([
      ["noise.wav", "no-string"],
      ["empty.wav", "recording-empty"],
    ]);
    for (const { message } of failed) expect(message).toMatch(/\.$/);
  });

  it("has null, never 0 or NaN, for what can't be had", () => {
    const [measure] = handMadeCompareDocument(
      handMadeComparison({
        measures: [
          handMadeMeasure({
            sdA: null,
            interval95: null,
            pAdjusted: null,
            smallestDetectable: null,
            takesForOneDb: null,
          }),
        ],
      }),
    ).measures;
    expect(measure).toMatchObject({
      sdA: null,
      interval95: null,
      pAdjusted: null,
      smallestDetectable: null,
      takesForOneDb: null,
    });
  });
});

describe("compareDocument.schema.json", () => {
  const committed = readFileSync(
    new URL("../../src/comparison/compareDocument.schema.json", import.meta.url),
    "utf8",
  );
  const validate = new Ajv2020({ strict: false }).compile(JSON.parse(committed));

  it("is in step with the schema in the source (npx tsx fixtures/writeSchema.ts)", () => {
    expect(committed).toBe(documentJsonSchema(compareDocumentSchema));
  });

  it("takes documents, and refuses what is none", () => {
    const document = handMadeCompareDocument();
    expect(validate(document)).toBe(true);
    expect(validate({ ...document, measures: [{ ...document.measures[0], verdict: "more" }] })).toBe(false);
    expect(validate({ ...document, verdict: undefined })).toBe(false);
  });
});
