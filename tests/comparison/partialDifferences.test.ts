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
    // a: 0, -10, -20 and the same 1 dB louder; b: 0, -4, -20 twice, 6 dB louder the second time. Two partials of three agree but for
    // how loud each take is, so that is what they have in common, and partial 2 is 6 dB weaker on side a.
    const a = [take({ C2: { 1: 0, 2: -10, 3: -20 } }), take({ C2: { 1: 1, 2: -9, 3: -19 } })];
    const b = [take({ C2: { 1: 0, 2: -4, 3: -20 } }), take({ C2: { 1: 6, 2: 2, 3: -14 } })];
    const { differences, leftOut } = partialDifferences(a, b);
    expect(differences.map(({ differenceDb }) => differenceDb)).toEqual([0, -6, 0]);
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

  it("is not dragged along by one partial that is all but gone on a side", () => {
    const levels = { 1: 0, 2: -6, 3: -9, 4: -12, 5: -14 };
    const a = [take({ D4: levels }), take({ D4: { ...levels, 1: 0.2 } })];
    const b = [take({ D4: { ...levels, 5: -60 } }), take({ D4: { ...levels, 5: -61 } })];
    const { differences } = partialDifferences(a, b);
    for (const { number, differenceDb } of differences) {
      // Partial 5: -14 against -60.5; partial 1: 0.1 dB on the mean.
      const truth = number === 5 ? 46.5 : number === 1 ? 0.1 : 0;
      expect(differenceDb).toBeCloseTo(truth, 9);
    }
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

  it("does not mind how loud a take is, and turns with the sides", () => {
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
    for (const [i, one] of base.entries()) {
      expect(moved[i].differenceDb).toBeCloseTo(one.differenceDb, 10);
      expect(moved[i].interval95Db![1]).toBeCloseTo(one.interval95Db![1], 8);
      expect(turned[i].differenceDb).toBeCloseTo(-one.differenceDb, 10);
      expect(turned[i].interval95Db![1]).toBeCloseTo(-one.interval95Db![0], 8);
    }
  });
});
