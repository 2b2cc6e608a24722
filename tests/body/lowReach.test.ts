import { describe, expect, it } from "vitest";
import { lowReach, type ReachPoint } from "../../src/body/lowReach.js";

const point = (frequencyHz: number, levelDb: number | null, half = 0): ReachPoint => ({
  frequencyHz,
  levelDb,
  interval95Db: levelDb === null ? null : [levelDb - half, levelDb + half],
});

// All by hand: straight lines in dB over log frequency.
describe("lowReach", () => {
  it("is where the curve falls below -10 dB, between two points", () => {
    const reach = lowReach([point(100, -16), point(200, -4), point(400, 0)], 100)!;
    expect(reach.lowReachHz).toBeCloseTo(200 * 2 ** -0.5, 8);
    expect(reach.isAtOrBelow).toBe(false);
    expect(reach.rangeHz[0]).toBeCloseTo(reach.lowReachHz, 8);
  });

  it("passes over bands without partials, and takes points in any order", () => {
    const points = [point(400, 0), point(141, null), point(200, -4), point(100, -16)];
    expect(lowReach(points, 100)!.lowReachHz).toBeCloseTo(200 * 2 ** -0.5, 8);
  });

  it("stops at the first gap, even if the curve rises again below", () => {
    const points = [point(50, 0), point(100, -20), point(200, 0), point(400, 0)];
    expect(lowReach(points, 50)!.lowReachHz).toBeCloseTo(200 * 2 ** -0.5, 8);
  });

  it("is at the lowest partial or below where nothing falls under -10 dB", () => {
    expect(lowReach([point(100, -10), point(200, -4), point(400, 0)], 97)).toMatchObject({
      lowReachHz: 97,
      isAtOrBelow: true,
    });
  });

  it("is null where the curve is that low at 355 Hz, or has no point on one side of it", () => {
    expect(lowReach([point(200, 0), point(300, -15), point(400, -12)], 200)).toBeNull();
    expect(lowReach([point(400, 0), point(500, 0)], 400)).toBeNull();
    expect(lowReach([point(100, 0), point(200, 0)], 100)).toBeNull();
    // 355 Hz lies 0.17 of the way from 400 down to 200: there -12 + 0.17 * 12 is above -10.
    expect(lowReach([point(200, 0), point(400, -12)], 200)).not.toBeNull();
  });

  it("has a range from the ends of the interval", () => {
    const reach = lowReach([point(50, -30, 4), point(100, -16, 4), point(200, -4, 4), point(400, 0, 4)], 50)!;
    // Upper end: -12 at 100 and 0 at 200, so 10 / 12 of an octave under 200; lower: -8 at 200, -20 at 100, 2 / 12.
    expect(reach.rangeHz[0]).toBeCloseTo(200 * 2 ** (-10 / 12), 8);
    expect(reach.rangeHz[1]).toBeCloseTo(200 * 2 ** (-2 / 12), 8);
    const wide = lowReach([point(100, -9, 12), point(200, -4, 12), point(400, 0, 12)], 98)!;
    expect(wide.rangeHz[0]).toBe(98);
    expect(wide.rangeHz[1]).toBeCloseTo(354.8, 1);
  });
});
