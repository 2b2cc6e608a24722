import { describe, expect, it } from "vitest";
import { burgFilter } from "../../src/statistics/burgFilter.js";
import { backSolved, cholesky, forwardSolved } from "../../src/statistics/cholesky.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

describe("burgFilter", () => {
  it("finds the coefficients of an autoregression", () => {
    // x(m) = 1.2 x(m-1) - 0.5 x(m-2) + e(m), by definition whitened by 1, -1.2, 0.5.
    const random = new SeededRandom(404);
    const values = new Float64Array(20_000);
    for (let m = 2; m < values.length; m++) {
      values[m] = 1.2 * values[m - 1] - 0.5 * values[m - 2] + random.normal();
    }
    const filter = burgFilter(values, 2);
    // Standard error of a coefficient: sqrt((1 - 0.5^2) / 20,000) = 0.006; four of them.
    expect(Math.abs(filter[1] + 1.2)).toBeLessThan(0.025);
    expect(Math.abs(filter[2] - 0.5)).toBeLessThan(0.025);
  });

  it("predicts a sinusoid from two values: 1, -2 cos w, 1", () => {
    const filter = burgFilter(
      Float64Array.from({ length: 4000 }, (_, m) => Math.sin(0.3 * m)),
      2,
    );
    // Burg's method is biased by the ends of the series, about 1 / 4000 here.
    expect(filter[1]).toBeCloseTo(-2 * Math.cos(0.3), 2);
    expect(filter[2]).toBeCloseTo(1, 2);
  });

  it("leaves a series of zeros as it is", () => {
    expect([...burgFilter(new Float64Array(10), 3)]).toEqual([1]);
  });
});

describe("backSolved", () => {
  it("solves a system together with forwardSolved", () => {
    // 4 x + 2 y = 10, 2 x + 3 y = 9: x = 1.5, y = 2.
    const factor = cholesky(Float64Array.of(4, 2, 2, 3), 2)!;
    const [x, y] = backSolved(factor, forwardSolved(factor, Float64Array.of(10, 9)));
    expect(x).toBeCloseTo(1.5, 12);
    expect(y).toBeCloseTo(2, 12);
  });
});
