import fc from "fast-check";
import { expect, it } from "vitest";
import { geometricSums } from "../../src/tap/geometricSums.js";

it("gives the sums of q^n, n q^n and n^2 q^n, near 1 and far from it", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -7, max: -0.05, noNaN: true }),
      fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
      fc.integer({ min: 1, max: 3000 }),
      (lgDecay, angle, count) => {
        const size = Math.exp(-(10 ** lgDecay));
        const [re, im] = [size * Math.cos(angle), size * Math.sin(angle)];
        const out = new Float64Array(6);
        geometricSums(re, im, count, out);
        const added = new Float64Array(6);
        const sizes = new Float64Array(6);
        for (let n = 0; n < count; n++) {
          const power = size ** n;
          for (const [k, weight] of [1, n, n * n].entries()) {
            added[2 * k]! += weight * power * Math.cos(n * angle);
            added[2 * k + 1]! += weight * power * Math.sin(n * angle);
            sizes[2 * k]! += weight * power;
            sizes[2 * k + 1]! += weight * power;
          }
        }
        // Of the third sum |1 - q|^-3 of the rounding comes through: 2e-3 is where the closed form ends, so 1e-7 of the terms.
        for (let k = 0; k < 6; k++)
          expect(Math.abs(out[k]! - added[k]!)).toBeLessThan(1e-7 * sizes[k]! + 1e-9);
      },
    ),
    { seed: 5_001, numRuns: 200 },
  );
});
