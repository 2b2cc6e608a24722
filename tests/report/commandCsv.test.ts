import { describe, expect, it } from "vitest";
import { checkCsv } from "../../src/report/csv/checkCsv.js";
import { compareCsv } from "../../src/report/csv/compareCsv.js";
import { keyboardCsv } from "../../src/report/csv/keyboardCsv.js";
import { measureCsv } from "../../src/report/csv/measureCsv.js";
import { wheelCsv } from "../../src/report/csv/wheelCsv.js";
import { passageOf } from "../wheel/handMadeMovement.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";
import { handMadeCompareDocument, handMadeComparison, handMadeMeasure } from "./handMadeComparison.js";
import { handMadeKeyboardDocument } from "./handMadeKeyboard.js";
import { handMadeWheelDocument, SECONDS, swinging } from "./handMadeWheel.js";
import { parseCsv } from "./parseCsv.js";

const FORMULA = '=HYPERLINK("x")';

/** Rows as what stands under each heading; every row must be as wide as the headings. */
function tableOf(csv: string): Record<string, string>[] {
  const [headings, ...rows] = parseCsv(csv.slice(1));
  expect(new Set(headings).size).toBe(headings!.length);
  return rows.map((row) => {
    expect(row).toHaveLength(headings!.length);
    return Object.fromEntries(headings!.map((heading, i) => [heading, row[i]!]));
  });
}

describe("tables for a spreadsheet", () => {
  it("measure: one row a string, its name never run", () => {
    const take = handMadeTake({ strings: [handMadeString({ name: FORMULA, lowRegisterDb: null })] });
    const [row] = tableOf(measureCsv(handMadeDocument([take])));
    expect(row).toMatchObject({
      string: `'${FORMULA}`,
      deviationCents: "2.5",
      interval95LowCents: "2.1",
      lowRegisterDb: "",
    });
  });

  it("compare: one row a measure with every take; a side with fewer takes leaves cells empty", () => {
    const uneven = handMadeMeasure({ takesB: [-6.5, -5.5], string: "-C2", primary: false });
    const rows = tableOf(
      compareCsv(handMadeCompareDocument(handMadeComparison({ measures: [handMadeMeasure(), uneven] }))),
    );
    expect(rows[0]).toMatchObject({ measure: "lowRegisterDb", primary: "yes", difference: "2" });
    expect(rows[0]).toMatchObject({ takeA1: "-4.31", takeA2: "-3.69", takeA3: "-4", takeB3: "-6" });
    expect(rows[1]).toMatchObject({ string: "'-C2", primary: "no", takeB1: "-6.5", takeB3: "" });
  });

  it("keyboard: one row a key, those of the other string under them", () => {
    const rows = tableOf(keyboardCsv(handMadeKeyboardDocument("top", FORMULA)));
    expect(rows.map(({ key }) => Number(key))).toEqual([...Array(24).keys()].map((i) => (i % 12) + 1));
    expect(rows[2]).toMatchObject({ string: "top", harsh: "yes", towardsAfterShift: "" });
    expect(rows[12]!.string).toBe(`'${FORMULA}`);
  });

  it("wheel: one row a string, and one for a passage that shows no swing", () => {
    const rows = tableOf(
      wheelCsv(
        handMadeWheelDocument([
          passageOf(SECONDS, { C2: swinging(0), G4: swinging(2) }),
          passageOf(1, { C2: swinging(0) }),
        ]),
      ),
    );
    expect(rows.map(({ string }) => string)).toEqual(["C2", "G4", ""]);
    // 1 cent of swing went in (handMadeWheel), with random movement of 0.15 cents.
    expect(Number(rows[0]!.pitchSwingCents)).toBeCloseTo(1, 1);
    expect(rows[2]).toMatchObject({ turnsPerSecond: "", refusal: "too-short", pitchSwingCents: "" });
  });

  it("check: one row a finding, one for a take without any, one for a file that could not be read", () => {
    const document = handMadeDocument([
      handMadeTake({ findings: [{ code: "clipping", severity: "problem", values: {} }] }),
      handMadeTake({ findings: [] }),
    ]);
    const failed = [{ file: FORMULA, code: "not-wav", message: `${FORMULA} is no WAV file.` }];
    const rows = tableOf(checkCsv({ ...document, failed }));
    expect(rows.map(({ verdict, code }) => [verdict, code])).toEqual([
      ["bad", "clipping"],
      ["good", ""],
      ["unreadable", "not-wav"],
    ]);
    expect(rows[2]!.message).toBe(`'${FORMULA} is no WAV file.`);
  });
});
