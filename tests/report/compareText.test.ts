import { describe, expect, it } from "vitest";
import { compareText } from "../../src/report/compareText.js";
import { handMadeCompareDocument, handMadeComparison, handMadeMeasure } from "./handMadeComparison.js";

const options = { colour: false, width: 80 };

describe("compareText", () => {
  it("has every take's value, mean, spread, and the verdict before all", () => {
    const text = compareText(handMadeCompareDocument(), options);
    for (const part of [
      "-4.3 -3.7 -4.0",
      "-6.4 -5.6 -6.0",
      "-4.8 to -3.2",
      "0.3",
      "0.4",
      "Pear (3 takes), Maple (3 takes)",
    ]) {
      expect(text).toContain(part);
    }
    const places = ["In short", "larger low part", "take by take", "Fairness"].map((part) =>
      text.indexOf(part),
    );
    expect(places).not.toContain(-1);
    expect([...places].sort((x, y) => x - y)).toEqual(places);
    expect(text).toContain("Counted, since every take has it: C2, C2+G2.");
    // The band that holds 0 nowhere is named, the one without interval is not.
    expect(text).toContain("at 63 Hz.");
    expect(text.split("\n").every((line) => line.length <= 80)).toBe(true);
  });

  it("says that nothing can be said", () => {
    const text = compareText(
      handMadeCompareDocument(
        handMadeComparison({
          measures: [],
          ranking: [],
          partialDifferences: [],
          bodyCurveDifference: [],
          sounds: [],
          findings: [{ code: "no-common-note", severity: "problem", values: {} }],
        }),
      ),
      options,
    );
    expect(text).toContain("Nothing can be said; see Fairness.");
    expect(text).toContain("no string that every take has");
    expect(text).not.toContain("take by take");
  });

  it("tells of levels with equal gain only", () => {
    const level = handMadeMeasure({ measure: "lowLevelDb", primary: false });
    const comparison = handMadeComparison({ measures: [handMadeMeasure(), level] });
    const flat = (equalGain: boolean) =>
      compareText(handMadeCompareDocument(comparison, equalGain), options).replace(/\s+/g, " ");
    expect(flat(true)).toContain("You declared the recordings equal in gain");
    expect(flat(true)).toContain("It is more low register too");
    expect(flat(false)).toContain("How loud each side was recorded plays no part");
    expect(flat(false)).not.toMatch(/more low register/);
  });

  it("lists partials where a difference of theirs is shown, and counts the others", () => {
    const partial = (verdict: "a-higher" | "not-shown", number: 1 | 2) =>
      handMadeMeasure({
        measure: `partial${number}Db`,
        string: "C2",
        primary: false,
        verdict,
        pAdjusted: 0.01,
      });
    const text = compareText(
      handMadeCompareDocument(
        handMadeComparison({
          measures: [handMadeMeasure(), partial("a-higher", 1), partial("not-shown", 2)],
        }),
      ),
      options,
    );
    expect(text).toMatch(/C2: partial 1 .* yes/);
    expect(text).not.toContain("C2: partial 2");
    expect(text.replace(/\s+/g, " ")).toContain(
      "Single partials that no difference is shown of are not listed (1).",
    );
  });

  it("ends no line with spaces, also where a last column is empty", () => {
    const bodyCurveDifference = handMadeComparison().bodyCurveDifference.map((one) => ({
      ...one,
      interval95Db: null,
    }));
    const text = compareText(handMadeCompareDocument(handMadeComparison({ bodyCurveDifference })), options);
    expect(text).toContain("How surely can't be said");
    expect(text.split("\n").filter((line) => line.endsWith(" "))).toEqual([]);
  });

  it("says that nothing was tested where nothing could be", () => {
    const untested = handMadeMeasure({
      measure: "centroidHz",
      unit: "Hz",
      primary: false,
      interval95: null,
      pAdjusted: null,
      verdict: "not-shown",
    });
    const partials = handMadeComparison().partialDifferences.map((one) => ({ ...one, interval95Db: null }));
    const text = compareText(
      handMadeCompareDocument(
        handMadeComparison({ measures: [handMadeMeasure(), untested], partialDifferences: partials }),
      ),
      options,
    ).replace(/\s+/g, " ");
    expect(text).toMatch(/middle of the energy \S+ Hz \S+ Hz \+2 Hz/);
    expect(text).toContain("Nothing was tested: that takes two takes a side");
    expect(text).not.toMatch(/Holm|one in twenty/);
  });

  it("keeps the names of measures whole in a narrow window, and leaves out the sides' own values instead", () => {
    const sides = [
      { name: "very long name of a pear instrument", takeCount: 3 },
      { name: "very long name of a maple instrument", takeCount: 3 },
    ];
    const [sideA, sideB] = sides.map(({ name }) => name);
    const bands = ([63, 125] as const).map((band) =>
      handMadeMeasure({ measure: `octave${band}Db`, primary: false, sideA, sideB, a: -11.1, b: -13.1 }),
    );
    const comparison = handMadeComparison({ sides, measures: bands });
    const text = (width: number) =>
      compareText(handMadeCompareDocument(comparison), { colour: false, width });
    expect(text(80)).toMatch(/octave band 63 Hz +-11\.1 +-13\.1 +\+2\.0/);
    expect(text(60)).toMatch(/octave band 63 Hz +\+2\.0/);
    expect(text(60)).toMatch(/octave band 125 Hz +\+2\.0/);
  });

  it("lets no control character through from names, and no colour unless asked", () => {
    const evil = "Pe\u001b[31mar\u0007\u202e\r\n";
    const rename = <T extends { sideA: string }>(one: T): T => ({ ...one, sideA: evil });
    const plain = handMadeComparison();
    const document = handMadeCompareDocument({
      ...plain,
      sides: [{ name: evil, takeCount: 3 }, plain.sides[1]],
      sounds: [[evil]],
      measures: plain.measures.map(rename),
      partialDifferences: plain.partialDifferences.map((one) => ({ ...rename(one), string: evil })),
      bodyCurveDifference: plain.bodyCurveDifference.map(rename),
      ranking: [{ ...plain.ranking[0], name: evil }, plain.ranking[1]],
      findings: [{ code: "one-take", severity: "problem", values: { sides: evil } }],
    });
    const text = compareText({ ...document, instrument: evil }, options);
    expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\u202e]/u);
    expect(compareText(document, { ...options, colour: true })).toContain("\u001b[");
  });
});
