import { describe, expect, it } from "vitest";
import { beyondProbability } from "../../src/statistics/beyondProbability.js";
import { gaussLegendre } from "../../src/statistics/gaussLegendre.js";
import { normalCumulative } from "../../src/statistics/normalCumulative.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { smallestDetectable, takesNeeded } from "../../src/statistics/smallestDetectable.js";
import { tTwoSidedP } from "../../src/statistics/tTwoSidedP.js";
import { welchDifference } from "../../src/statistics/welchDifference.js";

const alike = (count: number, sd = 1) => ({ sdA: sd, sdB: sd, countA: count, countB: count });

describe("gaussLegendre", () => {
  it("is exact for polynomials up to degree 2 count - 1, and not beyond", () => {
    const integral = (count: number, degree: number) => {
      const { nodes, weights } = gaussLegendre(count, 0, 2);
      return (
        nodes.reduce((sum, x, i) => sum + weights[i] * x ** degree, 0) / (2 ** (degree + 1) / (degree + 1))
      );
    };
    for (const count of [1, 2, 5, 24]) expect(integral(count, 2 * count - 1)).toBeCloseTo(1, 12);
    expect(Math.abs(integral(5, 10) - 1)).toBeGreaterThan(1e-6);
  });

  it("has the published nodes of three points", () => {
    // 0 and sqrt(3/5), weights 8/9 and 5/9 (Abramowitz & Stegun, table 25.4).
    const { nodes, weights } = gaussLegendre(3, -1, 1);
    expect(nodes[2]).toBeCloseTo(Math.sqrt(0.6), 14);
    expect(weights[1]).toBeCloseTo(8 / 9, 14);
    expect(weights[2]).toBeCloseTo(5 / 9, 14);
  });
});

describe("beyondProbability", () => {
  it("without shift is Student's t, and with many degrees of freedom the normal distribution", () => {
    for (const [limit, freedom] of [
      [2.776, 4],
      [0.5, 1],
      [12.7, 1],
      [3, 30.5],
    ])
      expect(beyondProbability(freedom)(limit, 0)).toBeCloseTo(tTwoSidedP(limit, freedom), 9);
    // 1 - Phi(1.96 - 2.8) + Phi(-4.76); with df degrees of freedom it differs by about limit^2 / 4 df: 1e-6.
    expect(beyondProbability(1e6)(1.96, 2.8)).toBeCloseTo(
      1 - normalCumulative(-0.84) + normalCumulative(-4.76),
      5,
    );
    // Phi(1.959964) = 0.975 (published table).
    expect(normalCumulative(1.959964)).toBeCloseTo(0.975, 7);
  });

  it.each([
    // Another library's noncentral t (Boost's series, by way of Python), both tails.
    [2.776, 4, 3, 0.6193816544543758],
    [2, 1, 1, 0.40897691709801365],
    [2.228, 10, 2.5, 0.6165822529970307],
    [12.7, 1, 5, 0.305300822481578],
    [2, 100, 2.8, 0.7873027945868987],
    [3.3, 398, 0.5, 0.0028067065810302933],
    [2, 2.5, 0.3, 0.1695474964226712],
  ])("beyond %d with %d degrees of freedom, shifted by %d, lies %d", (limit, freedom, shift, expected) => {
    expect(beyondProbability(freedom)(limit, shift)).toBeCloseTo(expected, 8);
  });
});

describe("smallestDetectable", () => {
  it.each([
    // Simulated by others for Welch's test at 5 % with 80 % power, in standard deviations from take to take. The exact values lie up
    // to 1.1 % above at 3 takes (3.507): simulated tables carry their own error, so 1.5 %; below, our own simulation.
    [3, 3.47],
    [4, 2.5],
    [5, 2.07],
    [6, 1.82],
    [8, 1.52],
    [12, 1.2],
  ])("with %i takes a side is %d standard deviations", (count, expected) => {
    expect(Math.abs(smallestDetectable(alike(count))! / expected - 1)).toBeLessThan(0.015);
  });

  it("with Holm over 40 measures needs 13.8 at 3 takes and 6.0 at 4", () => {
    // From the same simulation, of 0.05 / 40: given to 3 and 2 digits, so 0.05 / 13.8 and 0.05 / 6.0 and the table's own 1.5 %.
    const demand = { significance: 0.05 / 40 };
    expect(Math.abs(smallestDetectable(alike(3), demand)! - 13.8)).toBeLessThan(0.26);
    expect(Math.abs(smallestDetectable(alike(4), demand)! - 6.0)).toBeLessThan(0.14);
  });

  it.each([
    { sdA: 1, sdB: 1, countA: 3, countB: 3 },
    { sdA: 1, sdB: 3, countA: 4, countB: 4 },
    { sdA: 2, sdB: 0.5, countA: 3, countB: 7 },
    { sdA: 1, sdB: 0, countA: 4, countB: 3 },
  ])("is found in 80 of 100 simulated comparisons: %o", (sides) => {
    // 12,000 cases: standard error 0.37 points; 4 of them.
    const random = new SeededRandom(550_671);
    const difference = smallestDetectable(sides)!;
    let shown = 0;
    for (let trial = 0; trial < 12_000; trial++) {
      const a = Array.from({ length: sides.countA }, () => difference + random.normal(sides.sdA));
      const b = Array.from({ length: sides.countB }, () => random.normal(sides.sdB));
      if (welchDifference(a, b).p! < 0.05) shown++;
    }
    expect(Math.abs(shown / 12_000 - 0.8)).toBeLessThan(0.015);
  });

  it("scales with the scatter, and does not mind which side is which", () => {
    expect(smallestDetectable(alike(4, 2.5))! / smallestDetectable(alike(4))!).toBeCloseTo(2.5, 4);
    const one = smallestDetectable({ sdA: 1, sdB: 2, countA: 3, countB: 6 })!;
    expect(smallestDetectable({ sdA: 2, sdB: 1, countA: 6, countB: 3 })!).toBeCloseTo(one, 4);
  });

  it("is null where nothing can be said", () => {
    expect(smallestDetectable({ ...alike(3), countB: 1 })).toBeNull();
    expect(smallestDetectable(alike(3, 0))).toBeNull();
  });
});

describe("takesNeeded", () => {
  it.each([
    // Cohen, Statistical Power Analysis, 1988, table 2.4.1 (from memory): two-sided 5 %, 80 % power, n a side. That is the test with
    // pooled variance; Welch's differs by less than one take at these numbers. Cohen rounds 175.4 to 175.
    [0.8, 26],
    [0.5, 64],
    [0.3, 176],
  ])("for a difference of %d standard deviations is %i a side", (difference, expected) => {
    expect(takesNeeded({ sdA: 1, sdB: 1 }, difference)).toBe(expected);
    expect(takesNeeded({ sdA: 1, sdB: 1 }, -difference)).toBe(expected);
  });

  it("turns smallestDetectable round", () => {
    for (const count of [3, 4, 7]) {
      const difference = smallestDetectable({ sdA: 1, sdB: 2, countA: count, countB: count })!;
      expect(takesNeeded({ sdA: 1, sdB: 2 }, 1.0001 * difference)).toBe(count);
      expect(takesNeeded({ sdA: 1, sdB: 2 }, 0.9999 * difference)).toBe(count + 1);
    }
  });

  it("is null where 200 takes a side would not do, or nothing scatters", () => {
    expect(takesNeeded({ sdA: 1, sdB: 1 }, 0.1)).toBeNull(); // 1571 by the normal approximation, 2 (1.96 + 0.84)^2 / 0.01
    expect(takesNeeded({ sdA: 0, sdB: 0 }, 1)).toBeNull();
  });
});
