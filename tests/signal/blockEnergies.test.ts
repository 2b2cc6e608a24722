import fc from "fast-check";
import { expect, it } from "vitest";
import { LARGEST_SAMPLE, withoutNonFinite } from "../../src/audio/withoutNonFinite.js";
import { blockEnergies } from "../../src/signal/blockEnergies.js";

it("sums squares by blocks, leaves out what does not fill one, and gives none for none", () => {
  const samples = Float32Array.of(1, 2, 3, -1, 5);
  expect([...blockEnergies(samples, 2)]).toEqual([5, 10]);
  expect([...blockEnergies(samples, 2, true)]).toEqual([2, 52]);
  expect([...blockEnergies(samples, 5)]).toEqual([40]);
  expect([...blockEnergies(samples, 5, true)]).toEqual([]);
  expect([...blockEnergies(samples, 6)]).toEqual([]);
  expect([...blockEnergies(new Float32Array(0), 0)]).toEqual([]);
  expect([...blockEnergies(new Float32Array(0), 3, true)]).toEqual([]);
  // The memory is still in order after that.
  expect([...blockEnergies(samples, 2)]).toEqual([5, 10]);
});

it("samples that can't be sound are taken out wherever they stand, all others stay", () => {
  const odd = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 2 * LARGEST_SAMPLE, -1e30];
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.float({ min: -900, max: 900, noNaN: true }), fc.constantFrom(...odd)), {
        maxLength: 40,
      }),
      (values) => {
        const samples = Float32Array.from(values);
        const expected = [...samples].map((value) => (Math.abs(value) <= LARGEST_SAMPLE ? value : 0));
        expect([...withoutNonFinite(samples)]).toEqual(expected);
      },
    ),
  );
});
