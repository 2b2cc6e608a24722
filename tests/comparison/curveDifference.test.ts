import { describe, expect, it } from "vitest";
import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import type { BodyCurve } from "../../src/body/bodyCurve.js";
import { curveDifference } from "../../src/comparison/curveDifference.js";

/** A curve with these levels in the first bands, and none in the others. */
function curve(levels: readonly (number | null)[]): BodyCurve {
  return {
    status: "fitted",
    scatterDb: 1,
    lowReach: null,
    points: thirdOctaveBands.map(({ midbandHz }, i) => ({
      frequencyHz: midbandHz,
      levelDb: levels[i] ?? null,
      interval95Db: null,
      partialCount: 1,
    })),
  };
}
const refused: BodyCurve = { status: "refused", reason: "no-reference", groups: [] };

describe("curveDifference", () => {
  it("is the difference of means in the bands that every take of both sides has", () => {
    const found = curveDifference(
      [curve([1, -3, 2]), curve([2, -4, null])],
      [curve([0, -2, 2]), curve([0.5, -1, 2])],
    );
    // IEC 61260-1, base ten: 50.12 and 63.10 Hz.
    expect(found.map(({ frequencyHz }) => frequencyHz)).toEqual([
      expect.closeTo(50.1187, 3),
      expect.closeTo(63.0957, 3),
    ]);
    expect(found.map(({ differenceDb }) => differenceDb)).toEqual([
      expect.closeTo(1.25, 9),
      expect.closeTo(-2, 9),
    ]);
    for (const { differenceDb, interval95Db } of found) {
      // Two takes a side leave next to nothing sure: wider than Student's t of one point (4.30 standard errors).
      const [low, high] = interval95Db!;
      expect((low + high) / 2).toBeCloseTo(differenceDb, 9);
      expect(high - low).toBeGreaterThan(2 * 4.3 * 0.5);
    }
  });

  it("has no interval from one take a side, and none where nothing scatters", () => {
    expect(curveDifference([curve([1])], [curve([0])])).toMatchObject([
      { differenceDb: 1, interval95Db: null },
    ]);
    const same = [curve([1, 2]), curve([1, 2])];
    expect(curveDifference(same, same).map(({ interval95Db }) => interval95Db)).toEqual([null, null]);
  });

  it("is empty where a take has no curve, or no band is common", () => {
    expect(curveDifference([curve([1]), refused], [curve([0])])).toEqual([]);
    expect(curveDifference([refused], [curve([0])])).toEqual([]);
    expect(curveDifference([curve([1, null])], [curve([null, 1])])).toEqual([]);
    expect(curveDifference([], [])).toEqual([]);
  });
});
