import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../src/statistics/leastSquares.js";

const columns = (...all: number[][]) => all.map((column) => Float64Array.from(column));

describe("leastSquares", () => {
  it("finds the line through points that lie on one", () => {
    const x = [0, 1, 2, 3, 4];
    const found = leastSquares(
      columns(
        x.map(() => 1),
        x,
      ),
      Float64Array.from(x, (value) => 3 - 2 * value),
    );
    expect(found![0]).toBeCloseTo(3, 12);
    expect(found![1]).toBeCloseTo(-2, 12);
  });

  it("matches a regression worked by hand: x 1 2 3 4, y 6 5 7 10 has slope 1.4 and intercept 3.5", () => {
    // Normal equations: slope (4 * 77 - 10 * 28) / (4 * 30 - 100) = 28 / 20; intercept (28 - 14) / 4.
    const found = leastSquares(columns([1, 1, 1, 1], [1, 2, 3, 4]), Float64Array.of(6, 5, 7, 10));
    expect(found![0]).toBeCloseTo(3.5, 12);
    expect(found![1]).toBeCloseTo(1.4, 12);
  });

  it("needs no pivot order: a first column that is orthogonal or starts with zeros", () => {
    const found = leastSquares(columns([0, 0, 1], [0, 2, 0], [3, 0, 0]), Float64Array.of(6, 8, 5));
    expect([...found!]).toEqual([5, 4, 2]);
  });

  it("leaves a remainder that is orthogonal to every column, which is what least squares means", () => {
    const value = fc.double({ min: -10, max: 10, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(value, value, value), { minLength: 6, maxLength: 20 }), (rows) => {
        const given = columns(
          rows.map(() => 1),
          rows.map(([a]) => a),
          rows.map(([, b]) => b),
        );
        const values = Float64Array.from(rows, ([, , y]) => y);
        const found = leastSquares(given, values);
        if (found === null) return; // columns that don't differ: rows of equal numbers
        const rest = values.map(
          (y, i) => y - given.reduce((sum, column, c) => sum + found[c] * column[i], 0),
        );
        // Badly conditioned columns cost digits: the remainder is judged against the size of the coefficients.
        const size = 1 + Math.max(...found.map(Math.abs));
        for (const column of given) {
          const product = column.reduce((sum, entry, i) => sum + entry * rest[i], 0);
          expect(Math.abs(product) / size).toBeLessThan(1e-6);
        }
      }),
    );
  });

  it("says null where the columns don't determine the answer", () => {
    expect(leastSquares(columns([1, 1, 1], [2, 2, 2]), Float64Array.of(1, 2, 3))).toBeNull();
    expect(leastSquares(columns([0, 0, 0]), Float64Array.of(1, 2, 3))).toBeNull();
    expect(leastSquares(columns([1], [2]), Float64Array.of(1))).toBeNull();
    expect(leastSquares(columns([Number.NaN, 1]), Float64Array.of(1, 2))).toBeNull();
  });

  it("no columns, no coefficients", () => {
    expect(leastSquares([], Float64Array.of(1, 2))).toHaveLength(0);
  });
});
