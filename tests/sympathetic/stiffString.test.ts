import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { stiffString } from "../../src/sympathetic/stiffString.js";
import { cents } from "../../src/units/cents.js";

const F0_HZ = 293;
const B = 3e-4;
/** f_n = n f0 sqrt(1 + B n^2) (Fletcher 1964, J. Acoust. Soc. Am. 36). */
const partialHz = (n: number) => n * F0_HZ * Math.sqrt(1 + B * n * n);
const series = (
  numbers: readonly number[],
  deviationCents: number,
  offCents: (n: number) => number = () => 0,
) =>
  numbers.map((number) => ({
    number,
    frequencyHz: partialHz(number) * 2 ** (offCents(number) / 1200),
    deviationCents,
  }));

describe("stiffString", () => {
  it("gives back first partial and stiffness of exact partials", () => {
    const found = stiffString(series([1, 2, 3, 4, 5, 6, 7], 0.01))!;
    // What the iteration stops at.
    expect(Math.abs(cents(found.firstHz, partialHz(1)))).toBeLessThan(1e-4);
    expect(found.inharmonicity).toBeCloseTo(B, 8);
    expect(found.strayCents).toBe(0);
  });

  it("finds the first partial where it is missing", () => {
    const found = stiffString(series([2, 3, 5, 6], 0.01))!;
    expect(Math.abs(cents(found.firstHz, partialHz(1)))).toBeLessThan(1e-3);
  });

  it("keeps to the first partial where the others stray from the law", () => {
    const random = new SeededRandom(41);
    const found = stiffString(series([1, 2, 3, 4, 5, 6], 0.02, (n) => (n === 1 ? 0 : random.normal(6))))!;
    // Ten times its own uncertainty; the law alone is off by about 4 cents here.
    expect(Math.abs(cents(found.firstHz, partialHz(1)))).toBeLessThan(0.2);
    expect(found.strayCents).toBeGreaterThan(2);
  });

  it("leaves out a partial that was mistaken for something else", () => {
    const found = stiffString(series([1, 2, 3, 4, 5, 6], 0.05, (n) => (n === 4 ? 80 : 0)))!;
    expect(Math.abs(cents(found.firstHz, partialHz(1)))).toBeLessThan(0.01);
    expect(found.inharmonicity).toBeCloseTo(B, 6);
  });

  it("says how sure it is: standardised errors have variance 1", () => {
    const random = new SeededRandom(97);
    const squares = Array.from({ length: 400 }, () => {
      const found = stiffString(series([1, 2, 3, 4, 5, 6], 0.3, () => random.normal(0.3)))!;
      return (cents(found.firstHz, partialHz(1)) / found.deviationCents) ** 2;
    });
    const mean = squares.reduce((sum, square) => sum + square / squares.length, 0);
    // The mean of 400 squares of normal numbers has standard deviation 0.07; stray found by chance widens the claim a little.
    expect(mean).toBeGreaterThan(0.65);
    expect(mean).toBeLessThan(1.25);
  });

  it("has no stiffness to tell of two partials, and nothing without the first of them", () => {
    expect(stiffString(series([1, 2], 0.1))!.inharmonicity).toBeNull();
    expect(stiffString(series([2, 3], 0.1))).toBeNull();
  });
});
