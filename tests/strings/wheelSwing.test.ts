import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { wheelSwing } from "../../src/strings/wheelSwing.js";

const STEP_SECONDS = 0.05;

function series(seconds: number, valueAt: (seconds: number) => number): Float64Array {
  return Float64Array.from({ length: Math.round(seconds / STEP_SECONDS) }, (_, m) =>
    valueAt((m + 0.5) * STEP_SECONDS),
  );
}

const meanOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe("wheelSwing", () => {
  it("recovers rate, peak and mean of a sine of any rate and phase, whole turns or not", () => {
    const rate = fc.double({ min: 0.7, max: 4.5, noNaN: true });
    const phase = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
    const mean = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(rate, phase, mean, (rateHz, start, middle) => {
        const noise = new SeededRandom(17);
        const values = series(
          6,
          (t) => middle + 2 * Math.sin(2 * Math.PI * rateHz * t + start) + noise.normal(0.01),
        );
        const found = wheelSwing(values, STEP_SECONDS)!;
        // Rates are tried every 0.1 / 6 s = 0.017 Hz, so half of that is left; it costs a little of the peak.
        expect(Math.abs(found.rateHz - rateHz)).toBeLessThan(0.01);
        expect(Math.abs(found.amplitude - 2)).toBeLessThan(0.02);
        // Peak times half a grid step leaks into the mean by less than a hundredth.
        expect(Math.abs(meanOf(found.residual) - middle)).toBeLessThan(0.02);
      }),
      { seed: 20_260_301 },
    );
  });

  it("takes the strongest of two", () => {
    const values = series(
      8,
      (t) => 2 * Math.sin(2 * Math.PI * 1.3 * t) + 0.5 * Math.sin(2 * Math.PI * 3.9 * t),
    );
    expect(Math.abs(wheelSwing(values, STEP_SECONDS)!.rateHz - 1.3)).toBeLessThan(0.02);
  });

  it("finds nothing in a constant, in too few turns, or in a steady drift", () => {
    expect(wheelSwing(new Float64Array(120).fill(3), STEP_SECONDS)).toBeNull();
    expect(wheelSwing(new Float64Array(0), STEP_SECONDS)).toBeNull();
    expect(
      wheelSwing(
        series(0.2, (t) => Math.sin(20 * t)),
        STEP_SECONDS,
      ),
    ).toBeNull();
    expect(
      wheelSwing(
        series(6, (t) => t),
        STEP_SECONDS,
      ),
    ).toBeNull();
  });
});
