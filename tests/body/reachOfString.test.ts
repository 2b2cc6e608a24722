import { describe, expect, it } from "vitest";
import { reachOfString } from "../../src/body/reachOfString.js";
import type { PartialLevel } from "../../src/partials/PartialLevel.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const C2 = 65.4064;

/** An ideally bowed string with some partials moved by so many dB, or lost. */
function string(
  fundamentalHz: number,
  movedDb: Readonly<Record<number, number | null>> = {},
  scatter: (number: number) => number = () => 0,
  isShared: (number: number) => boolean = () => false,
): PartialLevel[] {
  return Array.from({ length: 30 }, (_, i) => {
    const number = i + 1;
    const moved = number in movedDb ? movedDb[number] : 0;
    const shared = isShared(number);
    const levelDb = moved === null || shared ? null : -5 - 20 * Math.log10(number) + moved + scatter(number);
    return {
      number,
      frequencyHz: number * fundamentalHz,
      levelDb,
      fullScaleDb: levelDb,
      signalToNoiseDb: 40,
      shared,
    };
  });
}

describe("reachOfString", () => {
  it("of an ideally bowed string on an even body finds nothing under it", () => {
    const reach = reachOfString(string(C2));
    expect(reach.partials.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6]);
    for (const { belowEvenDb } of reach.partials) expect(belowEvenDb).toBeCloseTo(0, 10);
    // 1/n: 0, -6.02, -9.54, -12.04 dB: three within 10 dB of the first.
    expect(reach.carriers).toEqual([1, 2, 3]);
    expect(reach.isFundamentalWeak).toBe(false);
    expect(reach.strengthPartialCount).toBe(16); // 6 * 65.4 = 392 to 21 * 65.4 = 1374 Hz
  });

  it("tells a weak fundamental and what carries the pitch instead", () => {
    // Partial 1 at -14 dB; 2 at -6.02, 3 at -9.54, 4 at -12.04, 5 at -13.98, 6 at -15.56: within 10 dB of partial 2 are 1 (at -14) too.
    expect(reachOfString(string(C2, { 1: -14 })).carriers).toEqual([1, 2, 3, 4, 5, 6]);
    const weak = reachOfString(string(C2, { 1: -18 }));
    expect(weak.partials[0].belowEvenDb).toBeCloseTo(18, 10);
    expect(weak.carriers).toEqual([2, 3, 4, 5, 6]);
    expect(weak.isFundamentalWeak).toBe(true);
  });

  it("looks no higher than partial 8 for carriers", () => {
    expect(reachOfString(string(C2, { 1: -40, 9: 30 })).carriers).toEqual([2, 3, 4, 5, 6]);
  });

  it("leaves the partial in question out of the strength", () => {
    // Of C3 partials 3 to 10 lie between 355 and 1413 Hz; 3 is 12 dB strong, and would raise its own measure.
    const reach = reachOfString(string(130.8128, { 3: 12 }));
    expect(reach.partials[2].belowEvenDb).toBeCloseTo(-12, 10);
    expect(reach.partials[0].belowEvenDb).toBeCloseTo(12 / 8, 10);
  });

  it("says why there is no value", () => {
    const lost = reachOfString(string(C2, { 1: null }));
    expect(lost.partials[0]).toMatchObject({ belowEvenDb: null, interval95Db: null, lacking: "not-heard" });
    expect(lost.isFundamentalWeak).toBe(true);
    const shared = reachOfString(string(C2, {}, undefined, (number) => number === 1));
    expect(shared.partials[0].lacking).toBe("shared");
    expect(shared.isFundamentalWeak).toBeNull();
    const high = reachOfString(string(391.9954)); // partials 1 to 3 only lie between 355 and 1413 Hz
    expect(high.partials[4]).toMatchObject({ belowEvenDb: null, lacking: "no-strength" });
    expect(reachOfString([])).toEqual({
      partials: [],
      carriers: [],
      isFundamentalWeak: null,
      strengthPartialCount: 0,
    });
  });

  it("has an interval that holds the truth in 95 of 100 strings with scatter and a slope of their own", () => {
    const random = new SeededRandom(31_007);
    let inside = 0;
    const trials = 2000;
    for (let trial = 0; trial < trials; trial++) {
      const slope = random.normal(1.5);
      // The partials that are asked about carry no scatter of their own: theirs is part of what is measured.
      const scatter = (number: number) => slope * Math.log2(number) + (number > 5 ? random.normal(2) : 0);
      const { interval95Db } = reachOfString(string(C2, { 1: -9 }, scatter)).partials[0];
      if (interval95Db![0] <= 9 && 9 <= interval95Db![1]) inside++;
    }
    // 2000 cases: standard error 0.49 points; 4 of them.
    expect(Math.abs(inside / trials - 0.95)).toBeLessThan(0.02);
  });
});
