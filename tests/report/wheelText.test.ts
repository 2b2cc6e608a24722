import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { documentJson } from "../../src/report/documentJson.js";
import { wheelText } from "../../src/report/wheelText.js";
import type { readWheel } from "../../src/wheel/readWheel.js";
import { wheelDocumentSchema } from "../../src/wheel/wheelDocumentSchema.js";
import { passageOf } from "../wheel/handMadeMovement.js";
import { handMadeWheelDocument as documentOf, SECONDS, swinging } from "./handMadeWheel.js";

const committed = readFileSync(new URL("../../src/wheel/wheelDocument.schema.json", import.meta.url), "utf8");
const validate = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(committed));
const two = documentOf([passageOf(SECONDS, { C2: swinging(0), G4: swinging(2) })]);
const still = documentOf([passageOf(SECONDS, { C2: swinging(0, 0) })]);

describe("wheelDocument", () => {
  it("follows its schema, which is in step with its file (npx tsx fixtures/writeSchema.ts)", () => {
    expect(committed).toBe(documentJsonSchema(wheelDocumentSchema));
    for (const document of [two, still, documentOf([])]) {
      const back = JSON.parse(documentJson(document));
      validate(back);
      expect(validate.errors).toBeNull();
      expect(wheelDocumentSchema.parse(back)).toEqual(back);
    }
  });

  it("has null for what is not shown, and no strings then", () => {
    expect(still).toMatchObject({ turnsPerSecond: null, pitchSwingCents: null, levelSwingDb: null });
    expect(still.passages[0]).toMatchObject({ strings: [], turnsInterval95: null });
  });
});

describe("wheelText", () => {
  const text = wheelText(two, { colour: false, width: 80 });

  it("gives the answer first, then strings, the turn, phases, what is left, what to try and a caution", () => {
    const headings = text.split("\n").filter((line) => /^[A-Z][a-z ,]+$/.test(line));
    expect(headings).toEqual([
      "In short",
      "Swing by string, to either side",
      "One turn of the wheel",
      "The strings against each other",
      "What does not come round",
      "The rate",
      "What to try",
      "Caution",
    ]);
    expect(text).toContain("The wheel goes round 1.50 times a second (95 % sure between");
    expect(text).toContain("one after another");
    expect(text).toMatch(/hair, cuffs and fingers/);
  });

  it("keeps to the width and lets no control character through", () => {
    for (const width of [60, 80, 100]) {
      for (const document of [two, still]) {
        const lines = wheelText(document, { colour: false, width }).split("\n");
        // A table is as wide as its numbers; the prose keeps to the width.
        for (const line of lines.filter((one) => /^ {2}[A-Za-z]/.test(one))) {
          expect(line.length).toBeLessThanOrEqual(width);
        }
      }
    }
    expect(text).not.toContain("\u001b");
  });

  it("says why there is nothing to say", () => {
    const said = wheelText(still, { colour: false }).replace(/\s+/g, " ");
    expect(said).toContain("No swing that keeps time with the wheel is shown");
    expect(said).toContain("--turns-per-second");
    // Counted wrong, the swing may be there: see the range that is taken.
    expect(said).toContain("If you gave them, leave them out");
    const none = wheelText(documentOf([]), { colour: false }).replace(/\s+/g, " ");
    expect(none).toContain("No steady passage was found");
    expect(none).toContain("name the tuning or the instrument");
  });

  it("with one string says what can be tried, and that the crank keeps its place on the wheel", () => {
    const one = documentOf([passageOf(SECONDS, { G4: swinging(0) })]);
    const said = wheelText(one, { colour: false }).replace(/\s+/g, " ");
    expect(said).toContain("comes at the same place of the wheel in every turn too");
    expect(said).toContain("Mount the crank a quarter turn round on its shaft, or let someone else crank");
    expect(said).toContain("(common practice, no source)");
  });

  it("gives both rates where two pushes a turn would do, and the counted one where it was given", () => {
    const said = wheelText(two, { colour: false }).replace(/\s+/g, " ");
    expect(said).toContain("1.50 turns a second (taken)");
    expect(said).toContain("0.75 turns a second: possible");
    // The answer must not be surer of the rate than what stands below it.
    expect(said).toMatch(/goes round 1\.50 times a second \([^)]*\); or 0\.75 times, if two like pushes/);
    const given = documentOf([passageOf(SECONDS, { G4: swinging(0) })], 0.8);
    expect(wheelText(given, { colour: false }).replace(/\s+/g, " ")).toContain(
      "0.75 turns a second (taken): nearest to what you counted; the strongest wave comes twice a turn.",
    );
    expect(wheelText(given, { colour: false })).not.toContain("if two like pushes");
  });
});

describe("numbers of the wheel that round to nothing", () => {
  it("have no sign, no wave of 0.00 and no error of 0 degrees", () => {
    const [passage] = two.passages;
    const small = structuredClone(two);
    small.passages[0].differences = passage.differences.map((one) => ({ ...one, laterDegrees: -0.3 }));
    for (const { pitch } of small.passages[0].strings) {
      const [first] = pitch.harmonics;
      const highestInterval95Degrees: [number, number] = [first.highestDegrees, first.highestDegrees];
      pitch.harmonics = [
        { ...first, highestInterval95Degrees },
        { ...first, number: 2, amount: 0.004, interval95: [0.001, 0.007] },
      ];
    }
    const said = wheelText(small, { colour: false });
    expect(passage.differences.length).toBeGreaterThan(0);
    expect(said).not.toMatch(/ -0 /);
    expect(said).not.toContain("2 a turn 0.00");
    expect(said).not.toMatch(/\+-0 /);
  });
});

describe("wheelText of many passages", () => {
  const turning = passageOf(SECONDS, { C2: swinging(0), G4: swinging(2) });
  const silent = passageOf(SECONDS, { C2: swinging(0, 0) });
  const textOf = (passages: Parameters<typeof readWheel>[0]) =>
    wheelText(documentOf(passages), { colour: false, width: 80 }).replace(/\s+/g, " ");

  it("gives a line to each and the details of the one with the most strings", () => {
    const said = textOf([passageOf(SECONDS, { C2: swinging(1) }), turning, silent]);
    expect(said).toContain("(medians of 2 of 3 passages)");
    expect(said.match(/none shown/g)).toHaveLength(1);
    expect(said.match(/One turn of the wheel/g)).toHaveLength(1);
    // Put in: 1 cent and 0.5 dB at 1.5 turns a second; the strings 2 rad apart.
    expect(said).toContain(
      "The wheel goes round 1.50 times a second; pitch swings by 1.0 cents and level by 0.5 dB",
    );
    expect(said).toContain("The strings swing one after another");
  });

  it("claims nothing where none shows a swing", () => {
    const said = textOf([silent, silent, silent]);
    expect(said).toContain("No swing that keeps time with the wheel is shown in any of 3 passages");
    expect(said).not.toContain("One turn of the wheel");
  });
});
