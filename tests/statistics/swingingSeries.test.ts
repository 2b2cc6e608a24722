import { describe, expect, it } from "vitest";
import { cholesky, forwardSolved } from "../../src/statistics/cholesky.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type Movement, swingingSeries } from "../../src/statistics/swingingSeries.js";

const MOVEMENT: Movement = { rateHz: 1.4, swingShare: 5, swingSeconds: 8, randomSeconds: 0.2 };

/** Generalised least squares with the whole covariance matrix written out: the same thing by another way. */
function dense(seconds: number[], values: number[], groups: number[], count: number) {
  const size = values.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const gap = Math.abs(seconds[i] - seconds[k]);
      const swing =
        MOVEMENT.swingShare *
        Math.exp(-gap / MOVEMENT.swingSeconds) *
        Math.cos(2 * Math.PI * MOVEMENT.rateHz * gap);
      covariance[i * size + k] = swing + Math.exp(-gap / MOVEMENT.randomSeconds) + (i === k ? 0.2 : 0);
    }
  }
  const factor = cholesky(covariance, size)!;
  const white = (column: number[]) => forwardSolved(factor, Float64Array.from(column));
  const columns = Array.from({ length: count }, (_, g) =>
    white(groups.map((group) => (group === g ? 1 : 0))),
  );
  const y = white(values);
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i], 0);
  // Two groups: the normal equations by hand.
  const [a, b, c] = [dot(columns[0], columns[0]), dot(columns[0], columns[1]), dot(columns[1], columns[1])];
  const [p, q] = [dot(columns[0], y), dot(columns[1], y)];
  const determinant = a * c - b * b;
  return { means: [(c * p - b * q) / determinant, (a * q - b * p) / determinant], inverse: c / determinant };
}

describe("swingingSeries", () => {
  it("is generalised least squares with the covariance written out", () => {
    const random = new SeededRandom(44);
    const seconds = Array.from({ length: 30 }, (_, i) => 0.1 * i + (i > 14 ? 0.3 : 0));
    const groups = seconds.map((_, i) => (i < 12 || i > 24 ? 0 : 1));
    const values = seconds.map((_, i) => 3 * groups[i] + random.normal(1));
    const expected = dense(seconds, values, groups, 2);
    const found = swingingSeries(seconds, values, groups, 2, MOVEMENT)!;
    // Both are exact: rounding only.
    expect(found.means[0]).toBeCloseTo(expected.means[0], 9);
    expect(found.means[1]).toBeCloseTo(expected.means[1], 9);
    expect(found.covariance[0] / found.variance).toBeCloseTo(expected.inverse, 9);
  });

  it("takes a steady swing out of groups of less than a turn", () => {
    const seconds = Array.from({ length: 120 }, (_, i) => 0.05 * i);
    const groups = seconds.map((_, i) => Math.floor(i / 8));
    const values = seconds.map((at, i) => 10 * groups[i] + 3 * Math.sin(2 * Math.PI * 1.4 * at + 1));
    const movement = { rateHz: 1.4, swingShare: 1e4, swingSeconds: 1e6, randomSeconds: 0.1 };
    const found = swingingSeries(seconds, values, groups, 15, movement)!;
    // The prior of the swing is wide but finite.
    for (const [group, mean] of found.means.entries()) expect(Math.abs(mean - 10 * group)).toBeLessThan(0.01);
  });

  it("gives nothing for as many groups as values", () => {
    expect(swingingSeries([0, 1], [3, 4], [0, 1], 2, MOVEMENT)).toBeNull();
  });
});
