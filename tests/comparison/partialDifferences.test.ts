import { describe, expect, it } from "vitest";
import { type ComparedTake, partialDifferences } from "../../src/comparison/partialDifferences.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { welchDifference } from "../../src/statistics/welchDifference.js";

type Levels = Readonly<Record<number, number | null>>;

/** A take of strings with these levels (dB) of their partials. */
function take(
  strings: Readonly<Record<string, Levels>>,
  status: "measured" | "not-heard" = "measured",
): ComparedTake {
  return {
    strings: Object.entries(strings).map(([name, levels]) => ({
      name,
      role: null,
      targetHz: 100,
      status,
      frequencyHz: 100,
      deviationCents: 0,
      interval95Cents: null,
      ownErrorCents: null,
      ownErrorInterval95Cents: null,
      unsteadinessCents: null,
      levelDb: -20,
      harmonicToNoiseDb: null,
      partials: Object.entries(levels).map(([number, levelDb]) => ({
        number: Number(number),
        frequencyHz: 100 * Number(number),
        levelDb,
        fullScaleDb: levelDb,
        signalToNoiseDb: null,
        shared: false,
      })),
      lowRegisterDb: null,
      octaveBandsDb: null,
      centroidHz: null,
      frameCentroidHz: null,
      tristimulus: null,
      oddToEvenDb: null,
      perPassage: [],
      findings: [],
    })),
  };
}

describe("partialDifferences", () => {
  it("gives the differences by hand, with what the string has in common taken out", () => {
    // a: 0, -10, -20 and 1, -9, -19 (mean -10, -9); b: 0, -4, -20 twice, 6 dB louder the second time (mean -8, -2).
    const a = [take({ C2: { 1: 0, 2: -10, 3: -20 } }), take({ C2: { 1: 1, 2: -9, 3: -19 } })];
    const b = [take({ C2: { 1: 0, 2: -4, 3: -20 } }), take({ C2: { 1: 6, 2: 2, 3: -14 } })];
    const { differences, leftOut } = partialDifferences(a, b);
    expect(differences.map(({ differenceDb }) => differenceDb)).toEqual([2, -4, 2]);
    expect(differences.map(({ number, frequencyHz }) => [number, frequencyHz])).toEqual([
      [1, 100],
      [2, 200],
      [3, 300],
    ]);
    expect(differences[0].welch.lacking).toBe("no-spread");
    expect(differences[0].interval95Db).toBeNull();
    expect(leftOut).toEqual([]);
  });

  it("has Welch's interval over takes", () => {
    // Partial 1 against partial 2, so the centred levels are half of their difference either way: the worked example of Welch's test
    // (tests/statistics/welchDifference) put in as twice its values.
    const side = (values: number[]) => values.map((value) => take({ G2: { 1: value, 2: -value } }));
    const valuesA = [79.6, 80.3, 79.1, 80.0, 79.9];
    const valuesB = [78.1, 78.9, 77.6, 78.4, 78.2];
    const [first, second] = partialDifferences(side(valuesA), side(valuesB)).differences;
    expect(first.differenceDb).toBeCloseTo(1.54, 10);
    expect(first.interval95Db![0]).toBeCloseTo(0.86358, 5);
    expect(first.interval95Db![1]).toBeCloseTo(2.21642, 5);
    expect(second.differenceDb).toBeCloseTo(-1.54, 10);
    expect(first.welch.p).toBeCloseTo(welchDifference(valuesA, valuesB).p!, 10);
  });

  it("uses only partials that every take has, and says which strings are left out", () => {
    const a = [take({ C2: { 1: 0, 2: -6, 3: -9, 5: -3 }, G3: { 1: 0, 2: -3 }, D4: { 1: 0, 2: -4 } })];
    const b = [take({ C2: { 1: 0, 2: -6, 3: null, 4: 0 }, G3: { 1: 0, 2: null } })];
    const { differences, leftOut } = partialDifferences(a, b);
    expect(differences.map(({ string, number }) => `${string} ${number}`)).toEqual(["C2 1", "C2 2"]);
    expect(differences[0].welch.lacking).toBe("too-few"); // one take a side
    expect(leftOut).toEqual([
      { string: "G3", reason: "too-few-partials" },
      { string: "D4", reason: "not-in-all-takes" },
    ]);
    expect(partialDifferences(a, [take({ C2: { 1: 0, 2: 1 } }, "not-heard")]).differences).toEqual([]);
    expect(partialDifferences([], b).leftOut.map(({ reason }) => reason)).toEqual([
      "not-in-all-takes",
      "not-in-all-takes",
    ]);
  });

  it("does not mind how loud a take is, sums to zero over a string, and turns with the sides", () => {
    const random = new SeededRandom(9_120);
    const levels = (): Levels => Object.fromEntries([1, 2, 3, 4].map((n) => [n, -6 * n + random.normal(2)]));
    const plainA = Array.from({ length: 4 }, levels);
    const plainB = Array.from({ length: 3 }, levels);
    const louder = (one: Levels, dB: number): Levels =>
      Object.fromEntries(Object.entries(one).map(([number, level]) => [number, level! + dB]));
    const side = (all: Levels[]) => all.map((C3) => take({ C3 }));
    const base = partialDifferences(side(plainA), side(plainB)).differences;
    const moved = partialDifferences(
      side(plainA.map((one, i) => louder(one, 5 * i))),
      side(plainB),
    ).differences;
    const turned = partialDifferences(side(plainB), side(plainA)).differences;
    expect(base.reduce((sum, { differenceDb }) => sum + differenceDb, 0)).toBeCloseTo(0, 10);
    for (const [i, one] of base.entries()) {
      expect(moved[i].differenceDb).toBeCloseTo(one.differenceDb, 10);
      expect(moved[i].interval95Db![1]).toBeCloseTo(one.interval95Db![1], 8);
      expect(turned[i].differenceDb).toBeCloseTo(-one.differenceDb, 10);
      expect(turned[i].interval95Db![1]).toBeCloseTo(-one.interval95Db![0], 8);
    }
  });
});
