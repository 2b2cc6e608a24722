import { describe, expect, it } from "vitest";
import { cholesky, forwardSolved } from "../../src/statistics/cholesky.js";

describe("cholesky", () => {
  // A textbook example with whole numbers: rows 4 12 -16, 12 37 -43, -16 -43 98; factor 2, 6 1, -8 5 3 (checked by multiplication).
  const matrix = Float64Array.from([4, 0, 0, 12, 37, 0, -16, -43, 98]);

  it("gives the factor, and reads the lower triangle only", () => {
    expect([...cholesky(matrix, 3)!]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
  });

  it("solves forward", () => {
    // L (1, 2, 3)' = (2, 8, 11)'.
    expect([...forwardSolved(cholesky(matrix, 3)!, Float64Array.from([2, 8, 11]))]).toEqual([1, 2, 3]);
  });

  it("says null where the matrix is not positive definite", () => {
    expect(cholesky(Float64Array.from([1, 0, 2, 1]), 2)).toBeNull();
  });
});
