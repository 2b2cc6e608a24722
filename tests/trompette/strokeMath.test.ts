import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { combinedEstimate } from "../../src/trompette/combinedEstimate.js";
import { evenness } from "../../src/trompette/evenness.js";
import { fitOnset } from "../../src/trompette/fitOnset.js";
import { hasPace } from "../../src/trompette/hasPace.js";
import { movingMean } from "../../src/trompette/movingMean.js";
import { riseShape } from "../../src/trompette/riseShape.js";
import { risesAndFalls } from "../../src/trompette/risesAndFalls.js";
import { stepAt } from "../../src/trompette/stepAt.js";
import { unevenness } from "../../src/trompette/unevenness.js";

describe("stepAt", () => {
  it("finds a sharp step exactly, whatever its size, and the middle of a ramp", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 35 }),
        fc.double({ min: 0.01, max: 1000, noNaN: true }),
        (at, high) => {
          const power = Float64Array.from({ length: 40 }, (_, i) => (i < at ? 0 : high));
          expect(stepAt(power, 0, 40)).toBe(at - 0.5);
        },
      ),
      { seed: 3 },
    );
    // Amplitude rises in a straight line from sample 16 to 24: its middle is 20. A split lies between two samples, half a one off.
    const ramp = Float64Array.from({ length: 40 }, (_, i) => Math.min(1, Math.max(0, (i - 16) / 8)) ** 2);
    expect(Math.abs(stepAt(ramp, 0, 40) - 20)).toBeLessThanOrEqual(0.5);
  });
});

describe("riseShape", () => {
  it("is the rise itself in short frames, and half of its power where a long frame stands in the middle of a sharp one", () => {
    // (1/2 - 1/2 cos(pi x))^2 of the raised cosine, at a quarter, half and three quarters of 16 ms.
    const sharp = riseShape(0.016, 0.0005, 0.002);
    for (const [after, share] of [
      [-2, 0.146_447],
      [0, 0.5],
      [2, 0.853_553],
    ]) {
      // A frame of a quarter of a sample smears by a hundredth at most.
      expect(Math.abs(sharp(after) - share ** 2)).toBeLessThan(0.01);
    }
    expect([sharp(-4.5), sharp(4.5)]).toEqual([0, 1]);
    // A frame is even about its middle.
    expect(riseShape(1e-6, 0.02, 0.002)(0)).toBeCloseTo(0.5, 1);
  });

  it("never falls", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.002, max: 0.02, noNaN: true }),
        fc.double({ min: 0.005, max: 0.035, noNaN: true }),
        (attack, frame) => {
          const shape = riseShape(attack, frame, 0.002);
          for (let x = -20; x < 20; x += 0.25) expect(shape(x + 0.25)).toBeGreaterThanOrEqual(shape(x));
        },
      ),
      { seed: 8, numRuns: 30 },
    );
  });
});

describe("fitOnset", () => {
  const shape = riseShape(0.01, 0.015, 0.002);
  const rising = (at: number, height: number, before: number, of: (expected: number) => number) => ({
    power: Float64Array.from({ length: 44 }, (_, m) => of(before + height * shape(m - at))),
    noise: 1,
    ownSpread: 0.4,
    shape,
    halfRise: 5,
  });

  it("finds a rise of its own shape where it is, of any height and from any level", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 14, max: 28, noNaN: true }),
        fc.double({ min: 20, max: 1e5, noNaN: true }),
        fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        (at, height, before) => {
          const fit = fitOnset(
            rising(at, height, before * height, (value) => value),
            0,
            44,
          );
          // Places are half a sample apart, and the median lies on one of them; from a rough level a rise starts as if later.
          expect(Math.abs(fit!.at - at)).toBeLessThan(1);
        },
      ),
      { seed: 9 },
    );
  });

  it("holds the truth in 95 of 100 by its reach, and has the wider one the fainter the rise", () => {
    const random = new SeededRandom(4711);
    const reaches = [4, 12, 60].map((height) => {
      const fits = Array.from({ length: 200 }, () => {
        const at = random.uniform(16, 26);
        const course = rising(at, height, 0, (value) => value + random.normal(Math.hypot(1, 0.4 * value)));
        const fit = fitOnset(course, 0, 44)!;
        return { isHeld: Math.abs(fit.at - at) <= fit.reach, reach: fit.reach };
      });
      // It counts neighbours as alike, which these are not, so it is too careful here; 200 values know 95 of 100 to 1.5.
      expect(fits.filter(({ isHeld }) => isHeld).length).toBeGreaterThan(0.95 * 200);
      return median(fits.map(({ reach }) => reach));
    });
    expect(reaches[0]).toBeGreaterThan(reaches[1]);
    expect(reaches[1]).toBeGreaterThan(reaches[2]);
  });

  it("takes a weak begin for the begin, where the split of least squares goes by what follows", () => {
    // Amplitude 0.3 for eight samples, then 1, out of silence: as when the first knocks of a buzz are weak.
    const power = Float64Array.from({ length: 44 }, (_, m) => (m < 16 ? 0 : m < 24 ? 9 : 100));
    const course = { power, noise: 0.5, ownSpread: 0.4, shape: riseShape(0.002, 0.004, 0.002), halfRise: 1 };
    expect(stepAt(power, 0, 44)).toBe(23.5);
    expect(Math.abs(fitOnset(course, 0, 44)!.at - 16)).toBeLessThan(2);
  });

  it("says so where nothing rises", () => {
    const falling = Float64Array.from({ length: 44 }, (_, m) => 44 - m);
    const course = { power: falling, noise: 1, ownSpread: 0.4, shape, halfRise: 5 };
    expect(fitOnset(course, 0, 44)).toBeNull();
  });
});

describe("unevenness", () => {
  it("is nothing for even moments, more where one is lost or added, and 1 for too few", () => {
    const even = Array.from({ length: 10 }, (_, i) => 0.2 * i);
    expect(unevenness(even)).toBeCloseTo(0, 9);
    // Of eight differences two are 1 with one moment more; one lost leaves seven, two of them 1.
    expect(unevenness([...even, 0.9].sort((a, b) => a - b))).toBeCloseTo(2 / 9, 9);
    expect(unevenness(even.filter((_, i) => i !== 4))).toBeCloseTo(2 / 7, 9);
    expect(unevenness([1, 2, 3])).toBe(1);
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
