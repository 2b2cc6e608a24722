import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { AnalysisError } from "../../src/errors.js";
import { measureDocumentSchema } from "../../src/reading/measureDocumentSchema.js";
import { documentJson } from "../../src/report/documentJson.js";
import { measureDocument } from "../../src/report/measureDocument.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";

const committed = readFileSync(
  new URL("../../src/reading/measureDocument.schema.json", import.meta.url),
  "utf8",
);
const validate = new Ajv2020({ strict: false }).compile(JSON.parse(committed));

describe("measureDocument", () => {
  it("builds the shape that scripts depend on", () => {
    const document = handMadeDocument();
    // The field names of the contract, written out here a second time on purpose.
    expect(Object.keys(document)).toEqual(
      expect.arrayContaining([
        "schemaVersion",
        "tool",
        "toolVersion",
        "instrument",
        "settings",
        "takes",
        "summary",
      ]),
    );
    expect(Object.keys(document.takes[0]!)).toEqual(
      expect.arrayContaining([
        "file",
        "sampleRateHz",
        "channelCount",
        "durationSeconds",
        "passages",
        "strings",
        "pairs",
        "referencePitch",
        "wheel",
        "lowRegister",
        "findings",
      ]),
    );
    expect(document.takes[0]!.strings[0]).toMatchObject({
      name: "C2",
      role: "drone",
      targetHz: 65.40639,
      status: "measured",
      frequencyHz: 65.50091,
      deviationCents: 2.5,
      interval95Cents: [2.1, 2.9],
      ownErrorCents: 1.3,
      unsteadinessCents: 1.1,
      levelDb: -21.3,
      harmonicToNoiseDb: 24,
      lowRegisterDb: -4.1,
      centroidHz: 512,
      findings: [],
    });
    expect(document.takes[0]!.strings[0]!.partials[1]).toEqual({
      number: 2,
      frequencyHz: 131.00182,
      levelDb: null,
      fullScaleDb: null,
      signalToNoiseDb: null,
      shared: true,
    });
    expect(document.takes[0]!.wheel).toBeNull();
    expect(document.takes[0]!.lowRegister).toMatchObject({
      lowRegisterDb: -5,
      octaveBandsDb: { "63": -12, "2000": null },
      thirdOctaveDb: [{ midbandHz: 63.1, levelDb: -15.2 }],
      centroidHz: 420,
      bodyCurve: [],
      lowReachHz: null,
    });
    expect(document.takes[0]!.findings[0]).toMatchObject({ code: "mains-hum", severity: "warning" });
    expect(document.takes[0]!.findings[0]!.message).toContain("50 Hz");
  });

  it("rounds, and has null for what is not a number", () => {
    const take = handMadeTake({
      strings: [handMadeString({ frequencyHz: 65.123456789, deviationCents: Number.NaN, levelDb: -0.0001 })],
    });
    const string = handMadeDocument([take]).takes[0]!.strings[0]!;
    expect(string.frequencyHz).toBe(65.12346);
    expect(string.deviationCents).toBeNull();
    expect(Object.is(string.levelDb, 0)).toBe(true);
  });

  it("has what keeps time with the wheel, peak, where it is shown", () => {
    const wheel = { turnsPerSecond: 1.40001, pitchSwingCents: 1, levelSwingDb: null, passages: [] };
    const document = handMadeDocument([handMadeTake({ wheel })]);
    expect(document.takes[0]!.wheel).toEqual({ turnsPerSecond: 1.4, pitchSwingCents: 1, levelSwingDb: null });
    expect(validate(document)).toBe(true);
  });

  it("lists takes that failed, with code and sentence", () => {
    const document = measureDocument({
      toolVersion: "0.0.0-test",
      instrument: null,
      settings: handMadeDocument().settings,
      takes: [],
      failed: [{ file: "a.wav", error: new AnalysisError("recording-empty", { durationSeconds: 0 }) }],
    });
    expect(document.failed).toEqual([
      { file: "a.wav", code: "recording-empty", message: expect.stringContaining("a.wav holds no sound") },
    ]);
    expect(validate(document)).toBe(true);
  });
});

describe("measureDocument.schema.json", () => {
  it("is in step with the schema in the source (npx tsx fixtures/writeSchema.ts)", () => {
    expect(committed).toBe(documentJsonSchema(measureDocumentSchema));
  });

  it("accepts what the program writes, read back from JSON", () => {
    const silent = handMadeTake({
      strings: [],
      pairs: [],
      referencePitch: null,
      lowRegister: null,
      findings: [],
    });
    const document = JSON.parse(documentJson(handMadeDocument([handMadeTake(), silent])));
    validate(document);
    expect(validate.errors).toBeNull();
    expect(measureDocumentSchema.parse(document)).toEqual(document);
  });

  it("accepts added fields, refuses renamed ones, other versions and other words", () => {
    const document = () => JSON.parse(documentJson(handMadeDocument()));
    expect(validate({ ...document(), added: 1 })).toBe(true);
    expect(validate({ ...document(), schemaVersion: 2 })).toBe(false);
    const renamed = document();
    renamed.takes[0].strings[0].centsOff = renamed.takes[0].strings[0].deviationCents;
    delete renamed.takes[0].strings[0].deviationCents;
    expect(validate(renamed)).toBe(false);
    const otherStatus = document();
    otherStatus.takes[0].strings[0].status = "ok";
    expect(validate(otherStatus)).toBe(false);
  });
});

describe("documentJson", () => {
  it("keeps every character, yet prints none that could move a cursor or turn a line", () => {
    const value = { name: "a\u001b\u009b\u007f\u202e\u2028\u{e0001}\ud800z\n" };
    const json = documentJson(value);
    expect(json).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u{e0001}]/u);
    expect(JSON.parse(json)).toEqual(value);
  });
});
