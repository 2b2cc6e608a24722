import { describe, expect, it } from "vitest";
import type { Comparison } from "../../src/comparison/Comparison.js";
import { compareSides } from "../../src/comparison/compareSides.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { PlacedInstrument } from "./PlacedInstrument.js";
import { type StringLevels, takeOfStrings, takeWithLowPart } from "./takeOfStrings.js";

const options = { equalGain: false, lowEdgeHz: 177.8279 };
const side = (name: string, lowParts: readonly number[]) => ({
  name,
  takes: lowParts.map((value) => takeWithLowPart(value)),
});
const codesOf = ({ findings }: Comparison) => findings.map(({ code }) => code);
const findingOf = ({ findings }: Comparison, wanted: string) => findings.find(({ code }) => code === wanted);
const primariesOf = ({ measures }: Comparison) => measures.filter(({ primary }) => primary);

// Less 79 each, so that they can be low registers: differences stay.
const A = [78.1, 78.9, 77.6, 78.4, 78.2].map((value) => value - 79);
const B = [79.6, 80.3, 79.1, 80.0, 79.9].map((value) => value - 79);

describe("compareSides", () => {
  it("has Welch's interval of the primary measure (worked example after Welch 1947, computed)", () => {
    const comparison = compareSides([side("Pear", A), side("Maple", B)], options);
    const [primary, ...more] = primariesOf(comparison);
    expect(more).toEqual([]);
    expect(primary.difference).toBeCloseTo(-1.54, 6);
    expect(primary.interval95![0]).toBeCloseTo(-2.21642, 4);
    expect(primary.interval95![1]).toBeCloseTo(-0.86358, 4);
    expect(primary.pAdjusted).toBeCloseTo(0.000776, 6);
    expect(primary).toMatchObject({ verdict: "b-higher", sideA: "Pear", sideB: "Maple", string: null });
    expect(primary.takesA.map((value) => Number(value.toFixed(6)))).toEqual(
      A.map((value) => Number(value.toFixed(6))),
    );
    expect(comparison.ranking.map(({ name }) => name)).toEqual(["Maple", "Pear"]);
  });

  it("points at the take that stands apart from the others of its side, and leaves it in", () => {
    // Grubbs' distance of the fourth of -1, -1.1, -0.9, -5: 1.499, over the limit of 1.481 for four values.
    const comparison = compareSides([side("Pear", [-1, -1.1, -0.9, -5]), side("Maple", B)], options);
    expect(findingOf(comparison, "take-apart")).toEqual({
      code: "take-apart",
      severity: "warning",
      values: { side: "Pear", take: 4, takeCount: 4, value: expect.closeTo(-5, 6) },
    });
    expect(primariesOf(comparison)[0].takesA).toHaveLength(4);
    expect(codesOf(compareSides([side("Pear", A), side("Maple", B)], options))).not.toContain("take-apart");
  });

  it("turns with the sides", () => {
    const [one] = primariesOf(compareSides([side("A", A), side("B", B)], options));
    const [turned] = primariesOf(compareSides([side("B", B), side("A", A)], options));
    expect(turned.difference).toBeCloseTo(-one.difference, 9);
    expect(turned.interval95![0]).toBeCloseTo(-one.interval95![1], 9);
    expect(turned.verdict).toBe("a-higher");
  });

  it("leaves out a note that one take lacks, and names it", () => {
    const G2: StringLevels = { name: "G2", frequencyHz: 100, partialsDb: [-20, -26, -30] };
    const D4: StringLevels = { name: "D4", frequencyHz: 293, partialsDb: [-10, -16, -20] };
    const both = takeOfStrings([G2, D4]);
    const comparison = compareSides(
      [
        { name: "A", takes: [both, both] },
        { name: "B", takes: [both, takeOfStrings([G2])] },
      ],
      options,
    );
    expect(comparison.sounds).toEqual([["G2"]]);
    expect(findingOf(comparison, "note-missing")).toEqual({
      code: "note-missing",
      severity: "warning",
      values: { strings: "D4", side: "B", takeCount: 1 },
    });
    expect(comparison.measures.some(({ string }) => string === "D4")).toBe(false);
    expect(comparison.partialDifferences.some(({ string }) => string === "D4")).toBe(false);
    // Were D4 counted where it was played, the sides would differ.
    expect(primariesOf(comparison)[0].difference).toBeCloseTo(0, 9);
  });

  it("names all that the same number of a side's takes lack in one finding", () => {
    const strings = ["G2", "C3", "D4"].map((name, i) => ({
      name,
      frequencyHz: 98 * 1.5 ** i,
      partialsDb: [-20, -26, -30],
    }));
    const whole = takeOfStrings(strings);
    const { findings } = compareSides(
      [
        { name: "A", takes: [whole, whole] },
        { name: "B", takes: [takeOfStrings(strings.slice(0, 1)), takeOfStrings(strings.slice(0, 2))] },
      ],
      options,
    );
    expect(findings.filter(({ code }) => code === "note-missing").map(({ values }) => values)).toEqual([
      { strings: "C3", side: "B", takeCount: 1 },
      { strings: "D4", side: "B", takeCount: 2 },
    ]);
    const all = compareSides(
      [
        { name: "A", takes: [whole] },
        { name: "B", takes: [takeOfStrings(strings.slice(0, 1))] },
      ],
      options,
    );
    expect(all.findings.filter(({ code }) => code === "note-missing").map(({ values }) => values)).toEqual([
      { strings: "C3, D4", side: "B", takeCount: 1 },
    ]);
  });

  it("shows nothing of a side whose takes are copies of one, however the other scatters", () => {
    const comparison = compareSides([side("copied", [9, 9, 9]), side("B", [0, 0.2, -0.1, 0.1])], options);
    expect(codesOf(comparison)).toContain("no-scatter");
    expect(comparison.measures.length).toBeGreaterThan(0);
    for (const one of comparison.measures)
      expect(one).toMatchObject({
        verdict: "not-shown",
        interval95: null,
        pAdjusted: null,
        smallestDetectable: null,
      });
    for (const { interval95Db } of [...comparison.partialDifferences, ...comparison.bodyCurveDifference])
      expect(interval95Db).toBeNull();
    // With a second take of its own it has a scatter.
    const [primary] = primariesOf(
      compareSides([side("A", [9, 9, 9.3]), side("B", [0, 0.2, -0.1, 0.1])], options),
    );
    expect(primary.verdict).toBe("a-higher");
  });

  it("says so where no note is common, and compares nothing", () => {
    const other = takeOfStrings([{ name: "D4", frequencyHz: 293, partialsDb: [-10, -16] }]);
    const comparison = compareSides([side("A", [0, 1]), { name: "B", takes: [other, other] }], options);
    expect(findingOf(comparison, "no-common-note")).toMatchObject({ severity: "problem" });
    expect(codesOf(comparison)).not.toContain("no-body-curve");
    expect(comparison).toMatchObject({
      sounds: [],
      measures: [],
      partialDifferences: [],
      bodyCurveDifference: [],
      ranking: [],
    });
  });

  it("gives the bare difference of one take a side", () => {
    const comparison = compareSides([side("A", [1]), side("B", [-1])], options);
    expect(findingOf(comparison, "one-take")).toMatchObject({
      severity: "problem",
      values: { sides: "A, B" },
    });
    const [primary] = primariesOf(comparison);
    expect(primary.difference).toBeCloseTo(2, 9);
    expect(primary).toMatchObject({
      interval95: null,
      pAdjusted: null,
      sdA: null,
      smallestDetectable: null,
      verdict: "not-shown",
    });
    expect(comparison.measures.every(({ verdict }) => verdict === "not-shown")).toBe(true);
    expect(findingOf(compareSides([side("A", [1, 2]), side("B", [-1])], options), "one-take")).toMatchObject({
      values: { sides: "B" },
    });
  });

  it("is not taken in by copies of one take", () => {
    const copies = compareSides([side("A", [1, 1, 1]), side("B", [-1, -1, -1])], options);
    expect(findingOf(copies, "no-scatter")).toMatchObject({ severity: "warning", values: { sides: "A, B" } });
    expect(primariesOf(copies)[0]).toMatchObject({ verdict: "not-shown", interval95: null });
    // Two of a side's takes alike: said, since it makes the side look surer.
    const some = compareSides([side("A", [1, 1, 1.4]), side("B", [-1, -1.2, -0.9])], options);
    expect(findingOf(some, "no-scatter")).toMatchObject({ values: { sides: "A" } });
    expect(codesOf(compareSides([side("A", [1, 1.3]), side("B", [1, 1.5])], options))).not.toContain(
      "no-scatter",
    );
  });

  it("compares each of three sides against the first, their primary measures Holm-adjusted", () => {
    const comparison = compareSides(
      [side("A", A), side("B", B), side("C", [-1, -0.4, 0.1, -0.3, -1.2])],
      options,
    );
    const [toB, toC] = primariesOf(comparison);
    expect([toB, toC].map(({ sideA, sideB }) => `${sideA}-${sideB}`)).toEqual(["A-B", "A-C"]);
    // Holm 1979: the smaller of two p values counts twice, the other once.
    expect(toB.pAdjusted).toBeCloseTo(2 * 0.000776, 5);
    const alone = primariesOf(
      compareSides([side("A", A), side("C", [-1, -0.4, 0.1, -0.3, -1.2])], options),
    )[0];
    expect(toC.pAdjusted).toBeCloseTo(alone.pAdjusted!, 9);
    expect(toC.interval95).toEqual(alone.interval95);
    // What could be shown is asked at the strictest level of the two.
    expect(toC.smallestDetectable!).toBeGreaterThan(1.05 * alone.smallestDetectable!);
    expect(comparison.ranking.map(({ name }) => name)).toEqual(["B", "C", "A"]);
  });

  it("does not count a pair that can't be tested among those that share the level", () => {
    const withSingle = compareSides([side("A", A), side("B", B), side("C", [0])], options);
    const alone = compareSides([side("A", A), side("B", B)], options);
    expect(primariesOf(withSingle)[0].pAdjusted).toBeCloseTo(primariesOf(alone)[0].pAdjusted!, 9);
    expect(primariesOf(withSingle)[0].smallestDetectable).toBeCloseTo(
      primariesOf(alone)[0].smallestDetectable!,
      6,
    );
  });

  it("has levels with equal gain, and only then", () => {
    const sides = [side("A", A), side("B", B)];
    const levels = (equalGain: boolean) =>
      compareSides(sides, { ...options, equalGain }).measures.filter(
        ({ measure }) => measure === "lowLevelDb",
      );
    expect(levels(false)).toEqual([]);
    // Partial 1 is the whole low part, at -30 dB plus the low register.
    expect(levels(true)).toHaveLength(1);
    expect(levels(true)[0]).toMatchObject({ string: null, primary: false, unit: "dB" });
    expect(levels(true)[0].difference).toBeCloseTo(-1.54, 6);
  });

  it("compares a measure only where every take has it, for the rest would be a selection", () => {
    // Partial 3 is heard in the louder takes of B only: of those alone its mean would be too large.
    const take = (third: number | null): TakeReading =>
      takeOfStrings([{ name: "G2", frequencyHz: 100, partialsDb: [-20, -26, third] }]);
    const comparison = compareSides(
      [
        { name: "A", takes: [take(-40), take(-41)] },
        { name: "B", takes: [take(-35), take(null)] },
      ],
      options,
    );
    const names = comparison.measures.map(({ measure }) => measure);
    expect(names).toContain("partial2Db");
    expect(names).not.toContain("partial3Db");
  });

  it("says where the low part can't be had", () => {
    const high = takeOfStrings([{ name: "G2", frequencyHz: 200, partialsDb: [-20, -26] }]);
    const comparison = compareSides([side("A", [0, 1]), { name: "B", takes: [high, high] }], options);
    expect(primariesOf(comparison)).toEqual([]);
    expect(findingOf(comparison, "no-low-part")).toMatchObject({
      severity: "problem",
      values: { sides: "B" },
    });
  });

  describe("on whole instruments", () => {
    const random = new SeededRandom(9_411);
    const scatter = { gainDb: 1, tiltDb: 0.3, roomDb: 0.6, stringDb: 0.3, partialDb: 0.2 };
    const ending = new PlacedInstrument({ resonances: [], lowestModeHz: 300 });
    const flat = new PlacedInstrument({ resonances: [], lowestModeHz: 0 });

    it("compares no low reach where a side reaches lower than was played, and says so", () => {
      const comparison = compareSides(
        [ending.side("A", 3, scatter, random), flat.side("B", 3, scatter, random)],
        options,
      );
      expect(comparison.measures.some(({ measure }) => measure === "lowReachHz")).toBe(false);
      const finding = findingOf(comparison, "reach-below-lowest");
      expect(finding).toMatchObject({ severity: "info", values: { sides: "B", reason: "all-takes" } });
      // The lowest partial: that of C2.
      expect(finding!.values.frequencyHz).toBeCloseTo(65.4064, 3);
    });

    it("compares it where all takes have it, and the whole curve", () => {
      const comparison = compareSides(
        [ending.side("A", 3, scatter, random), ending.side("B", 3, scatter, random)],
        options,
      );
      expect(comparison.measures.find(({ measure }) => measure === "lowReachHz")).toMatchObject({
        unit: "Hz",
      });
      expect(codesOf(comparison)).toEqual([]);
      expect(comparison.bodyCurveDifference.length).toBeGreaterThan(10);
      for (const { differenceDb, interval95Db } of comparison.bodyCurveDifference) {
        expect(interval95Db![0]).toBeLessThan(differenceDb);
        expect(interval95Db![1]).toBeGreaterThan(differenceDb);
      }
    });

    it("tells of takes that reach so low when only some do", () => {
      const mixed = { name: "B", takes: [flat.plainTake(), ending.plainTake()] };
      const comparison = compareSides([ending.side("A", 2, scatter, random), mixed], options);
      expect(findingOf(comparison, "reach-below-lowest")).toMatchObject({
        values: { sides: "B", reason: "some-takes" },
      });
      expect(comparison.measures.some(({ measure }) => measure === "lowReachHz")).toBe(false);
    });
  });
});
