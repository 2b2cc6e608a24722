import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type Slope, slopeWithin } from "../../src/statistics/slopeWithin.js";

// NIST Statistical Reference Datasets, linear regression, Norris (y, x), and its certified values: both from memory. That the data
// give the certified values to eleven digits shows that neither was remembered wrongly.
const NORRIS = `0.1 0.2  338.8 337.4  118.1 118.2  888.0 884.6  9.2 10.1  228.1 226.5  668.5 666.3  998.5 996.3  449.1 448.6
  778.9 777.0  559.2 558.2  0.3 0.4  0.1 0.6  778.1 775.5  668.8 666.9  339.3 338.0  448.9 447.5  10.8 11.6  557.7 556.0
  228.3 228.1  998.0 995.8  888.8 887.6  119.6 120.2  0.3 0.3  0.6 0.3  557.6 556.8  339.3 339.1  888.0 887.2  998.5 999.0
  778.9 779.0  10.2 11.1  117.6 118.3  228.9 229.2  668.4 669.1  449.2 448.9  0.2 0.5`;
const CERTIFIED = {
  slope: 1.00211681802045,
  standardError: 0.000429796848199937,
  residualDeviation: 0.884796396144373,
};

const numbers = NORRIS.trim().split(/\s+/).map(Number);
const norris = { y: numbers.filter((_, i) => i % 2 === 0), x: numbers.filter((_, i) => i % 2 === 1) };

const slopeOf = (groups: Parameters<typeof slopeWithin>[0]) => slopeWithin(groups) as Slope;

describe("slopeWithin", () => {
  it("gives the certified values of a reference regression", () => {
    const found = slopeOf([norris]);
    // Certified to 15 digits; sums of 36 numbers up to 1e6 keep 11 of them.
    expect(found.slope / CERTIFIED.slope).toBeCloseTo(1, 11);
    expect(found.standardError / CERTIFIED.standardError).toBeCloseTo(1, 11);
    expect(found.residualDeviation / CERTIFIED.residualDeviation).toBeCloseTo(1, 11);
    expect(found.degreesOfFreedom).toBe(34);
    // t(0.975, 34) = 2.032 (published table, three decimals).
    const half = (found.interval95[1] - found.interval95[0]) / 2;
    expect(Math.abs(half / CERTIFIED.standardError - 2.032)).toBeLessThan(0.0005);
  });

  it("gives the same where the data are split into two groups that a level was added to, as worked by hand", () => {
    // x 0 1 2 in both groups, y 0 1 5 and 10 13 14: centred products 5 and 4 over squares 2 and 2, slope 9 / 4. What is left: -2 -1 3 less
    // -2.25 0 2.25 is 0.25 -1 0.75, and -7/3 2/3 5/3 less the same is -1/12 2/3 -7/12: squares 1.625 and 114/144; 6 - 2 - 1 = 3 below.
    const found = slopeOf([
      { x: [0, 1, 2], y: [0, 1, 5] },
      { x: [0, 1, 2], y: [10, 13, 14] },
    ]);
    expect(found.slope).toBeCloseTo(2.25, 12);
    expect(found.degreesOfFreedom).toBe(3);
    expect(found.residualDeviation ** 2).toBeCloseTo((1.625 + 114 / 144) / 3, 12);
    expect(found.standardError ** 2).toBeCloseTo((1.625 + 114 / 144) / 3 / 4, 12);
  });

  it("does not mind a level that is added to a group, nor the order of points and groups", () => {
    const point = fc.tuple(
      fc.double({ min: 0, max: 30, noNaN: true }),
      fc.double({ min: -20, max: 20, noNaN: true }),
    );
    const group = fc.array(point, { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(group, group, fc.double({ min: -100, max: 100, noNaN: true }), (a, b, level) => {
        const of = (points: [number, number][], by = 0) => ({
          x: points.map(([x]) => x),
          y: points.map(([, y]) => y + by),
        });
        const one = slopeWithin([of(a), of(b)]);
        const other = slopeWithin([of([...b].reverse(), level), of(a)]);
        if (typeof one === "string" || typeof other === "string" || one.standardError > 1e3) return;
        // Levels of 100 cost digits against steps of x as small as 1e-3 of the range; the standard error is what it is judged by.
        expect(Math.abs(other.slope - one.slope)).toBeLessThan(1e-6 * (1 + one.standardError));
        expect(other.degreesOfFreedom).toBe(one.degreesOfFreedom);
      }),
      { seed: 52_911, numRuns: 300 },
    );
  });

  it("says why there is no slope", () => {
    expect(slopeWithin([])).toBe("too-few");
    expect(slopeWithin([{ x: [1, 2], y: [1, 2] }])).toBe("too-few");
    expect(slopeWithin([{ x: [1, 2, 3, 4], y: [1, 3, 2, 5] }], 3)).toBe("too-few");
    // A single point a group determines its level and nothing else.
    const single = [1, 2, 3, 4].map((x) => ({ x: [x], y: [x * x] }));
    expect(slopeWithin(single)).toBe("too-few");
    expect(slopeWithin([{ x: [20_000.5, 20_000.5, 20_000.5], y: [1, 2, 4] }])).toBe("no-range");
    expect(slopeWithin([{ x: [0, 1, 2, 3], y: [0.1, 0.2, 0.1 + 0.2, 0.4] }])).toBe("no-scatter");
    expect(slopeWithin([{ x: [0, 1, 2], y: [0, 0, 0] }])).toBe("no-scatter");
  });

  it("holds the true slope in 95 of 100 cases", () => {
    // By theory exactly 95 %: 6000 cases a kind have a standard error of 0.28 points; three of them are allowed.
    const random = new SeededRandom(660_407);
    for (const sizes of [[4], [8], [3, 4], [2, 2, 5]]) {
      let inside = 0;
      for (let trial = 0; trial < 6000; trial++) {
        const groups = sizes.map((size) => {
          const level = random.uniform(-10, 10);
          const x = Array.from({ length: size }, () => random.uniform(0, 30));
          return { x, y: x.map((one) => level - 0.4 * one + random.normal()) };
        });
        const [low, high] = slopeOf(groups).interval95;
        if (low <= -0.4 && -0.4 <= high) inside++;
      }
      expect(Math.abs(inside / 6000 - 0.95)).toBeLessThan(0.0085);
    }
  });
});
