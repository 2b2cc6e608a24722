import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { holmAdjusted } from "../../src/statistics/holmAdjusted.js";

/**
 * Holm's procedure is the closed test of Bonferroni tests (Marcus, Peritz & Gabriel 1976, Biometrika 63): the adjusted p of a measure is
 * the largest, over all sets that hold it, of the set's size times its smallest p, at most 1. Another road to the same numbers.
 */
function byClosure(pValues: readonly number[]): number[] {
  const adjusted = pValues.map(() => 0);
  for (let set = 1; set < 1 << pValues.length; set++) {
    const members = pValues.flatMap((_, i) => ((set >> i) & 1 ? [i] : []));
    const p = Math.min(1, members.length * Math.min(...members.map((i) => pValues[i])));
    for (const i of members) adjusted[i] = Math.max(adjusted[i], p);
  }
  return adjusted;
}

describe("holmAdjusted", () => {
  it("gives a textbook example", () => {
    // The example commonly given for the method (from memory: p = 0.01, 0.04, 0.03, 0.005), by arithmetic: 0.005 * 4 = 0.02, 0.01 *
    // 3 = 0.03, 0.03 * 2 = 0.06, and 0.04 * 1 raised to the 0.06 before it. At 5 % the first and the last are shown.
    const adjusted = holmAdjusted([0.01, 0.04, 0.03, 0.005]);
    for (const [i, expected] of [0.03, 0.06, 0.06, 0.02].entries())
      expect(adjusted[i]).toBeCloseTo(expected, 12);
  });

  it("is the closed test of Bonferroni tests", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 }),
        (pValues) => {
          const expected = byClosure(pValues);
          for (const [i, p] of holmAdjusted(pValues).entries()) expect(p).toBeCloseTo(expected[i], 12);
        },
      ),
      { seed: 730_021, numRuns: 200 },
    );
  });

  it("is never below the p itself, keeps the order, and does not pass 1", () => {
    const given = [0.9, 0.04, 0.6, 0.001, 0.04, 0.5];
    const adjusted = holmAdjusted(given) as number[];
    for (const [i, p] of given.entries()) {
      expect(adjusted[i]).toBeGreaterThanOrEqual(p);
      expect(adjusted[i]).toBeLessThanOrEqual(1);
      for (const [k, other] of given.entries())
        if (p <= other) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[k]);
    }
    expect(adjusted[0]).toBe(1);
  });

  it("leaves measures without p out of the count", () => {
    expect(holmAdjusted([0.02, null, 0.04])).toEqual([0.04, null, 0.04]);
    expect(holmAdjusted([null])).toEqual([null]);
    expect(holmAdjusted([])).toEqual([]);
  });
});
