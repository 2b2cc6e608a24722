import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inGroups } from "../../../src/report/html/inGroups.js";

describe("rows of a tall chart in groups", () => {
  it("keeps all rows in order, at most six and about alike in each", () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { maxLength: 40 }), (rows) => {
        const groups = inGroups(rows);
        expect(groups.flat()).toEqual(rows);
        const sizes = groups.map(({ length }) => length);
        expect(Math.max(0, ...sizes)).toBeLessThanOrEqual(6);
        if (sizes.length > 0) expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
    expect(inGroups([])).toEqual([]);
  });
});
