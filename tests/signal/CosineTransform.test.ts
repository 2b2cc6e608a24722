import { describe, expect, it } from "vitest";
import { CosineTransform } from "../../src/signal/CosineTransform.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** The definition, term by term; whole turns are taken off the angle so that it keeps all its digits. */
function direct(values: Float64Array, l: number): number {
  const last = values.length - 1;
  let sum = values[0] + (l % 2 === 0 ? 1 : -1) * values[last];
  for (let k = 1; k < last; k++) sum += 2 * values[k] * Math.cos((Math.PI * ((k * l) % (2 * last))) / last);
  return sum;
}

describe("CosineTransform", () => {
  it.each([2, 4, 8, 16, 64, 1024])("of %i steps is what its definition says", (last) => {
    const random = new SeededRandom(last);
    const values = Float64Array.from({ length: last + 1 }, () => random.normal(1));
    const out = new Float64Array(last + 1);
    new CosineTransform(last).transform(out, values);
    for (let l = 0; l <= last; l++) {
      // Some thousand values of about 1 summed in double precision: 1e-13; ten times that and more.
      expect(Math.abs(out[l] - direct(values, l)), `l = ${l}`).toBeLessThan(1e-11);
    }
  });

  it("fills no more than is asked for, odd or even", () => {
    const values = Float64Array.from({ length: 33 }, (_, k) => 1 / (k + 1));
    const all = new Float64Array(33);
    const transform = new CosineTransform(32);
    transform.transform(all, values);
    for (const length of [0, 1, 2, 7, 8]) {
      const out = new Float64Array(length);
      transform.transform(out, values);
      expect(out).toEqual(all.slice(0, length));
    }
  });

  it("gives the values back when done twice, times twice the number of steps", () => {
    const random = new SeededRandom(3);
    const values = Float64Array.from({ length: 129 }, () => random.normal(1));
    const once = new Float64Array(129);
    const twice = new Float64Array(129);
    const transform = new CosineTransform(128);
    transform.transform(once, values);
    transform.transform(twice, once);
    // Rounding, as above.
    for (let k = 0; k <= 128; k++) expect(Math.abs(twice[k] / 256 - values[k])).toBeLessThan(1e-12);
  });
});
