import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { combinedEstimate } from "../../src/trompette/combinedEstimate.js";
import { evenness } from "../../src/trompette/evenness.js";
import { hasPace } from "../../src/trompette/hasPace.js";
import { movingMean } from "../../src/trompette/movingMean.js";
import { risesAndFalls } from "../../src/trompette/risesAndFalls.js";
import { stepAt } from "../../src/trompette/stepAt.js";

describe("stepAt", () => {
  it("finds a sharp step exactly, whatever its size, and the middle of a ramp", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 35 }),
        fc.double({ min: 0.01, max: 1000, noNaN: true }),
        (at, high) => {
          const power = Float64Array.from({ length: 40 }, (_, i) => (i < at ? 0 : high));
          expect(stepAt(power, 0, 40).at).toBe(at - 0.5);
        },
      ),
      { seed: 3 },
    );
    // Amplitude rises in a straight line from sample 16 to 24: its middle is 20. A split lies between two samples, half a one off.
    const ramp = Float64Array.from({ length: 40 }, (_, i) => Math.min(1, Math.max(0, (i - 16) / 8)) ** 2);
    expect(Math.abs(stepAt(ramp, 0, 40).at - 20)).toBeLessThanOrEqual(0.5);
  });

  it("says how clear a step is", () => {
    const random = new SeededRandom(41);
    const rough = Float64Array.from(
      { length: 200 },
      (_, i) => ((i < 100 ? 1 : 2) + random.normal(0.25)) ** 2,
    );
    // Step 1 over a deviation of 0.25: 4. The deviation of 200 values is known to 1 / sqrt(400) = 5 %; three times that.
    expect(Math.abs(stepAt(rough, 0, 200).clarity / 4 - 1)).toBeLessThan(0.15);
  });
});

describe("risesAndFalls", () => {
  const course = (...levels: number[]) =>
    Float64Array.from(levels.flatMap((level) => new Array(5).fill(level)));

  it("parts what falls near the floor or deeply between, and joins across a shallow dip", () => {
    expect(risesAndFalls(course(0, 20, 0, 20, 0), 0)).toHaveLength(2);
    expect(risesAndFalls(course(0, 20, 10, 20, 0), 0)).toHaveLength(2);
    expect(risesAndFalls(course(0, 20, 15, 20, 0), 0)).toHaveLength(1);
    expect(risesAndFalls(course(0, 3, 0, 3, 0), 0)).toHaveLength(0);
  });

  it("keeps begin and end of what it joins", () => {
    const [one] = risesAndFalls(course(0, 20, 15, 21, 0), 0);
    expect(one).toEqual({ valley: 0, peak: 15, end: 20 });
  });
});

describe("movingMean", () => {
  it("is the mean of what lies around, and keeps a constant", () => {
    expect([...movingMean(Float64Array.of(0, 0, 3, 0, 0), 3)]).toEqual([0, 1, 1, 1, 0]);
    expect([...movingMean(new Float64Array(6).fill(2), 4)]).toEqual(new Array(6).fill(2));
  });
});

describe("hasPace", () => {
  it("knows even strokes, drifting ones, and long-short patterns", () => {
    const from = (gaps: readonly number[]) => {
      const moments = [1];
      for (const gap of gaps) moments.push(moments[moments.length - 1] + gap);
      return moments;
    };
    expect(hasPace(from(new Array(6).fill(0.2)))).toBe(true);
    expect(hasPace(from([0.2, 0.21, 0.22, 0.24, 0.25, 0.26]))).toBe(true);
    expect(hasPace(from([0.3, 0.1, 0.1, 0.3, 0.1, 0.1, 0.3, 0.1, 0.1, 0.3, 0.1, 0.1]))).toBe(true);
    expect(hasPace(from([0.3, 0.9, 0.5, 1.4, 0.7]))).toBe(false);
    // Every fourth one missed.
    expect(hasPace(from([0.2, 0.2, 0.4, 0.2, 0.2, 0.4, 0.2, 0.4, 0.2, 0.6]))).toBe(true);
    expect(hasPace([1, 2, 3])).toBe(false);
  });

  it("seldom takes chance for a pace", () => {
    const random = new SeededRandom(1234);
    const cases = 400;
    let taken = 0;
    for (let c = 0; c < cases; c++) {
      let at = 0;
      const moments = Array.from({ length: 4 + (c % 9) }, () => {
        at += random.uniform(0.3, 1.5);
        return at;
      });
      if (hasPace(moments)) taken++;
    }
    // Gaps of 0.3 to 1.5 s agree to within a quarter in about a quarter of the places; that two of two do so, or seven of ten, comes to
    // 5 of 100 in trials. Twice that.
    expect(taken / cases).toBeLessThan(0.1);
  });
});

describe("evenness", () => {
  const even = (count: number, gap: number) => Array.from({ length: count }, (_, i) => 3 + i * gap);

  it("gives rate, and no spread where there is none", () => {
    const read = evenness(even(12, 0.125));
    expect(read.strokesPerSecond).toBeCloseTo(8, 9);
    expect(read.timingSpreadSeconds?.standardDeviation).toBeCloseTo(0, 9);
    expect(read.missedSeconds).toEqual([]);
  });

  it("tells a missed stroke and counts it in the pace, and leaves pauses out", () => {
    const onsets = even(12, 0.2).filter((_, i) => i !== 5);
    const read = evenness([...onsets, ...even(6, 0.2).map((one) => one + 10)]);
    expect(read.missedSeconds).toEqual([expect.closeTo(4, 6)]);
    expect(read.strokesPerSecond).toBeCloseTo(5, 9);
  });

  it("finds the spread of single onsets, whatever the pace drifts", () => {
    const random = new SeededRandom(77);
    // Gaps grow from 0.15 to 0.25 s; onsets scatter by 6 ms.
    let at = 1;
    const onsets = Array.from({ length: 200 }, (_, i) => {
      at += 0.15 + 0.0005 * i;
      return at + random.normal(0.006);
    });
    const { timingSpreadSeconds } = evenness(onsets);
    // Known to 1 / sqrt(2 * 132) = 6 % from two thirds of 198 triples; three times that.
    expect(Math.abs(timingSpreadSeconds!.standardDeviation / 0.006 - 1)).toBeLessThan(0.18);
    expect(timingSpreadSeconds!.interval95[0]).toBeLessThan(0.006);
    expect(timingSpreadSeconds!.interval95[1]).toBeGreaterThan(0.006);
  });

  it("says nothing of fewer than three", () => {
    expect(evenness([1, 2])).toEqual({
      strokesPerSecond: null,
      timingSpreadSeconds: null,
      missedSeconds: [],
    });
  });
});

describe("combinedEstimate", () => {
  const of = (...values: number[]) =>
    values.map((value, i) => ({ number: i + 1, value, standardError: 0.2 }));

  it("does not mind one partial that is far off", () => {
    const read = combinedEstimate(of(-6, -6.2, -5.8, -6.1, 12), 0)!;
    expect(read.mean).toBeLessThan(-5.7);
    expect(read.mean).toBeGreaterThan(-6.3);
    expect(read.interval95![0]).toBeLessThan(-6);
    expect(read.interval95![1]).toBeGreaterThan(-6);
  });

  it("is never surer than the pitch is steady by itself", () => {
    const [low, high] = combinedEstimate(of(-6, -6, -6), 1.5)!.interval95!;
    expect(high - low).toBeGreaterThanOrEqual(3);
    expect(combinedEstimate([], 1)).toBeNull();
  });
});
