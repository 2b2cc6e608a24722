import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { centsOverTonic, type Temperament, temperaments } from "../../src/units/temperament.js";

const degrees = (temperament: Temperament) =>
  Array.from({ length: 12 }, (_, semitones) => Number(centsOverTonic(temperament, semitones).toFixed(3)));

/** The interval of seven keys up from a degree. */
const fifthFrom = (temperament: Temperament, degree: number) =>
  centsOverTonic(temperament, degree + 7) - centsOverTonic(temperament, degree);

describe("centsOverTonic", () => {
  it("equal: a hundred cents a key", () => {
    expect(degrees("equal")).toEqual([0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100]);
  });

  it("just: 1200 log2 of 1/1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8", () => {
    expect(degrees("just")).toEqual([
      0, 111.731, 203.91, 315.641, 386.314, 498.045, 590.224, 701.955, 813.686, 884.359, 1017.596, 1088.269,
    ]);
  });

  it("Pythagorean: 1/1 256/243 9/8 32/27 81/64 4/3 729/512 3/2 128/81 27/16 16/9 243/128", () => {
    const ratios = [
      1,
      256 / 243,
      9 / 8,
      32 / 27,
      81 / 64,
      4 / 3,
      729 / 512,
      3 / 2,
      128 / 81,
      27 / 16,
      16 / 9,
      243 / 128,
    ];
    expect(degrees("pythagorean")).toEqual(
      ratios.map((ratio) => Number((1200 * Math.log2(ratio)).toFixed(3))),
    );
    expect(centsOverTonic("pythagorean", 4)).toBeCloseTo(407.82, 3); // 81/64, three decimals
  });

  it("quarter-comma meantone: pure major thirds of 386.314 and fifths of 696.578", () => {
    // Fifth: 1200 log2(5) / 4 = 696.578. Minor third: three fifths down, two octaves up: 310.265.
    expect(degrees("quarter-comma-meantone")).toEqual([
      0, 117.108, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 813.686, 889.735, 1006.843, 1082.892,
    ]);
    // Major thirds on the eight degrees that have one within the chain of fifths (four fifths up).
    for (const degree of [1, 8, 3, 10, 5, 0, 7, 2]) {
      const third =
        centsOverTonic("quarter-comma-meantone", degree + 4) -
        centsOverTonic("quarter-comma-meantone", degree);
      expect(third).toBeCloseTo(386.313714, 6); // 5/4, six decimals
    }
  });

  it("the wolf closes the circle: seven octaves less eleven fifths", () => {
    // Pythagorean: 701.955 - 23.460 (Pythagorean comma) = 678.495. Meantone: 8400 - 11 * 696.578 = 737.637.
    expect(fifthFrom("pythagorean", 6)).toBeCloseTo(678.495, 3); // three decimals
    expect(fifthFrom("quarter-comma-meantone", 6)).toBeCloseTo(737.637, 3);
    for (const degree of [0, 1, 2, 3, 4, 5, 7, 8, 9, 10, 11]) {
      expect(fifthFrom("pythagorean", degree)).toBeCloseTo(701.955001, 6); // 3/2, six decimals
      expect(fifthFrom("quarter-comma-meantone", degree)).toBeCloseTo(696.578428, 6); // 5^(1/4)
    }
  });

  it("the Pythagorean major third is a syntonic comma of 21.506 above the just one", () => {
    expect(centsOverTonic("pythagorean", 4) - centsOverTonic("just", 4)).toBeCloseTo(21.50629, 6); // 81/80
  });

  it("rises from key to key and repeats at the octave, below the tonic too", () => {
    fc.assert(
      fc.property(fc.constantFrom(...temperaments), fc.integer({ min: -60, max: 60 }), (temperament, key) => {
        const here = centsOverTonic(temperament, key);
        // The smallest step of all is 25/24 in the just scale, 70.672 cents.
        expect(centsOverTonic(temperament, key + 1) - here).toBeGreaterThan(70);
        expect(centsOverTonic(temperament, key + 12) - here).toBeCloseTo(1200, 8); // double rounding
      }),
    );
  });
});
