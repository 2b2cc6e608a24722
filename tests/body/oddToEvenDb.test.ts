import { describe, expect, it } from "vitest";
import { oddToEvenDb } from "../../src/body/oddToEvenDb.js";

describe("oddToEvenDb", () => {
  it("is 10 lg 3.119748 for 20 partials at 1/n", () => {
    // Arithmetic: (1 + 1/9 + ... + 1/361) / (1/4 + ... + 1/400), six decimals.
    const powers = Array.from({ length: 20 }, (_, index) => 1 / (index + 1) ** 2);
    expect(10 ** (oddToEvenDb(powers)! / 10)).toBeCloseTo(3.119748, 6);
  });

  it.each([
    [[1, 1], 0],
    [[10, 1], 10],
    [[1, 0, 0, 10], -10],
  ])("%j -> %d dB", (powers, expected) => {
    expect(oddToEvenDb(powers)).not.toBeNull(); // toBeCloseTo(0) takes null for 0
    expect(oddToEvenDb(powers)).toBeCloseTo(expected, 12);
  });

  it("says null where odd or even hold nothing", () => {
    expect(oddToEvenDb([])).toBeNull();
    expect(oddToEvenDb([1])).toBeNull();
    expect(oddToEvenDb([0, 1])).toBeNull();
    expect(oddToEvenDb([0, 0])).toBeNull();
  });
});
