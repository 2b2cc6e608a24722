import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { varianceComponents } from "../../src/statistics/varianceComponents.js";

describe("varianceComponents", () => {
  it("has the worked example of a textbook", () => {
    // Montgomery, Design and Analysis of Experiments (from memory): strength of fabric from four looms, four samples each; mean
    // squares 29.73 and 1.90, components 6.96 and 1.90.
    const found = varianceComponents([
      [98, 97, 99, 96],
      [91, 90, 93, 92],
      [96, 95, 97, 95],
      [95, 96, 99, 98],
    ])!;
    expect(found.within ** 2).toBeCloseTo(1.9, 2);
    expect(found.between ** 2).toBeCloseTo(6.96, 2);
  });

  it("finds what was put in, with groups of unlike sizes", () => {
    const random = new SeededRandom(7_731);
    const groups = Array.from({ length: 4000 }, (_, g) => {
      const own = random.normal(2);
      return Array.from({ length: 1 + (g % 4) }, () => own + random.normal(0.5));
    });
    const found = varianceComponents(groups)!;
    // Standard errors of 4,000 groups: 1.1 % of the one, 0.9 % of the other.
    expect(Math.abs(found.between - 2)).toBeLessThan(0.07);
    expect(Math.abs(found.within - 0.5)).toBeLessThan(0.015);
  });

  it("gives 0 between groups that agree, and nothing where nothing can be told", () => {
    expect(
      varianceComponents([
        [1, 3],
        [2, 2],
        [1, 3],
      ]),
    ).toMatchObject({ between: 0 });
    expect(varianceComponents([[1], [2], [3]])).toBeNull();
    expect(varianceComponents([[1, 2, 3], []])).toBeNull();
    expect(varianceComponents([])).toBeNull();
  });
});
