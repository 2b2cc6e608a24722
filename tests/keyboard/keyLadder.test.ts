import { describe, expect, it } from "vitest";
import { keyLadder } from "../../src/keyboard/keyLadder.js";

// Cents of the ratios: 1200 log2(3/2) = 701.955, of 5/4 386.314, of 4/3 498.045; arithmetic.
describe("keyLadder", () => {
  it("is a hundred cents a key in equal temperament, wherever the string stands", () => {
    expect(keyLadder("equal", 7, 4)).toEqual([0, 100, 200, 300, 400]);
  });

  it("is the just scale on a string tuned to the tonic", () => {
    const ladder = keyLadder("just", 0, 24);
    expect(ladder[4]).toBeCloseTo(386.314, 3);
    expect(ladder[7]).toBeCloseTo(701.955, 3);
    expect(ladder[24]).toBeCloseTo(2400, 9);
  });

  it("counts from an open string that is the fifth of the tonic", () => {
    // G over the tonic C: its fourth is C itself, 4/3 above; its fifth is D, 9/4 over C, so 3/2 over G.
    const ladder = keyLadder("just", 7, 12);
    expect(ladder[0]).toBe(0);
    expect(ladder[5]).toBeCloseTo(498.045, 3);
    expect(ladder[7]).toBeCloseTo(701.955, 3);
    expect(keyLadder("just", -5, 12)[5]).toBeCloseTo(498.045, 3);
  });

  it("has meantone's pure third and narrow fifth", () => {
    // The fourth root of 5 is 696.578 cents.
    const ladder = keyLadder("quarter-comma-meantone", 0, 12);
    expect(ladder[4]).toBeCloseTo(386.314, 3);
    expect(ladder[7]).toBeCloseTo(696.578, 3);
  });
});
