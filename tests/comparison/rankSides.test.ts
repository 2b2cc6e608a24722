import { describe, expect, it } from "vitest";
import { rankSides } from "../../src/comparison/rankSides.js";
import { takeMeasures } from "../../src/comparison/takeMeasures.js";
import { takeWithLowPart } from "./takeOfStrings.js";

function ranked(lowParts: Readonly<Record<string, readonly number[]>>, common = [["G2"]]) {
  const sides = Object.entries(lowParts).map(([name, values]) => ({
    name,
    takes: values.map((one) => takeWithLowPart(one)),
  }));
  return rankSides(
    sides,
    sides.map(({ takes }) =>
      takes.map((take) => takeMeasures(take, common, { equalGain: false, lowEdgeHz: 177.8 })),
    ),
  );
}

describe("rankSides", () => {
  it("puts the largest low part first, each with Student's interval of its own mean", () => {
    const found = ranked({ small: [-6, -5, -7], large: [1, 2, 3, 2], single: [-1], copied: [-3, -3] });
    expect(found.map(({ name }) => name)).toEqual(["large", "single", "copied", "small"]);
    expect(found.map(({ takeCount }) => takeCount)).toEqual([4, 1, 2, 3]);
    const small = found[3];
    expect(small.lowRegisterDb).toBeCloseTo(-6, 9);
    // t of 97.5 % at 2 degrees of freedom is 4.3027 (t table); standard deviation 1 dB, 3 takes.
    expect(small.interval95Db![1]).toBeCloseTo(-6 + 4.3027 / Math.sqrt(3), 3);
    expect(found[1].interval95Db).toBeNull();
    expect(found[2].interval95Db).toBeNull();
  });

  it("leaves out a side of which some take has no low part: the others would be a selection", () => {
    const sides = [
      { name: "whole", takes: [takeWithLowPart(1), takeWithLowPart(2)] },
      { name: "part", takes: [takeWithLowPart(1), takeWithLowPart(2)] },
    ];
    const measures = sides.map(({ takes }) =>
      takes.map((take) => takeMeasures(take, [["G2"]], { equalGain: false, lowEdgeHz: 177.8 })),
    );
    const lacking = { ...measures[1][1], measures: [] };
    expect(rankSides(sides, [measures[0], [measures[1][0], lacking]]).map(({ name }) => name)).toEqual([
      "whole",
    ]);
  });

  it("leaves out sides without a low part", () => {
    expect(ranked({ a: [1, 2] }, [["D4"]])).toEqual([]);
  });
});
