import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { combinePassages } from "../../src/strings/combinePassages.js";
import { cents } from "../../src/units/cents.js";
import { movedHz, passageAt } from "./handMadePassage.js";

/** Property tests draw the same cases every time. */
const SEED = 20_260_303;

const HZ = 98;
const halfWidth = (interval: readonly [number, number] | null) => (interval![1] - interval![0]) / 2;

describe("combinePassages", () => {
  it("hands one passage on as it is", () => {
    const one = passageAt(1, HZ, { halfWidthCents: 0.3, unsteadinessCents: 1.7 });
    const found = combinePassages([one]);
    // Only rounding of logarithms stands between the two.
    expect(found.frequencyHz).toBeCloseTo(HZ, 10);
    expect(found.interval95Cents?.[0]).toBeCloseTo(-0.3, 10);
    expect(found.interval95Cents?.[1]).toBeCloseTo(0.3, 10);
    expect(found.unsteadinessCents).toBeCloseTo(1.7, 10);
    expect(found.spreadCents).toBeNull();
    expect(found.partials).toEqual(one.partials.map((partial) => ({ ...partial, shared: false })));
  });

  it("keeps an interval that does not lie evenly about the passage's mean", () => {
    const { steadiness } = passageAt(0, HZ);
    const skewed = passageAt(0, HZ, { steadiness: { ...steadiness, interval95Cents: [-0.4, 0.2] } });
    const [lower, upper] = combinePassages([skewed]).interval95Cents!;
    expect(lower).toBeCloseTo(-0.4, 10);
    expect(upper).toBeCloseTo(0.2, 10);
  });

  it("weighs passages with their length", () => {
    // 1 s at 0 cents and 3 s at 4 cents: (1 * 0 + 3 * 4) / 4 = 3 cents.
    const found = combinePassages([
      passageAt(0, HZ, { endSeconds: 1 }),
      passageAt(5, movedHz(HZ, 4), { endSeconds: 8 }),
    ]);
    expect(cents(found.frequencyHz, HZ)).toBeCloseTo(3, 9);
    expect(found.spreadCents).toBeCloseTo(4, 9);
  });

  it("adds the errors of passages that agree as squares", () => {
    // Means of equal weight: half of sqrt(0.3^2 + 0.4^2).
    const found = combinePassages([
      passageAt(0, HZ, { halfWidthCents: 0.3 }),
      passageAt(9, HZ, { halfWidthCents: 0.4 }),
    ]);
    expect(halfWidth(found.interval95Cents)).toBeCloseTo(0.25, 9);
  });

  it("widens the interval where passages differ by more than their intervals explain (Birge 1932)", () => {
    // Two equally sure values d apart: the external standard error of their mean is d / 2, whatever their own errors.
    const found = combinePassages([passageAt(0, HZ), passageAt(9, movedHz(HZ, 2))]);
    expect(halfWidth(found.interval95Cents)).toBeCloseTo(1.959964 * 1, 6);
  });

  it("is never surer of passages that disagree than of passages that agree", () => {
    const halfWidths = fc.double({ min: 0.05, max: 2, noNaN: true });
    const apart = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(halfWidths, halfWidths, apart, (a, b, byCents) => {
        const first = passageAt(0, HZ, { halfWidthCents: a });
        const agreeing = combinePassages([first, passageAt(9, HZ, { halfWidthCents: b })]);
        const apartHz = movedHz(HZ, byCents);
        const other = combinePassages([first, passageAt(9, apartHz, { halfWidthCents: b })]);
        expect(halfWidth(other.interval95Cents)).toBeGreaterThanOrEqual(
          halfWidth(agreeing.interval95Cents) - 1e-9,
        );
      }),
      { seed: SEED },
    );
  });

  it("has no interval where more than half of the sound has none", () => {
    const long = passageAt(0, HZ, { halfWidthCents: null });
    const short = passageAt(9, HZ, { endSeconds: 11 });
    expect(combinePassages([long, short]).interval95Cents).toBeNull();
    const little = passageAt(9, HZ, { endSeconds: 11, halfWidthCents: null });
    expect(combinePassages([passageAt(0, HZ), little]).interval95Cents).not.toBeNull();
  });

  it("joins powers, noise and unsteadiness as powers, by length", () => {
    const partial = (power: number, signalToNoise: number | null) => [{ number: 1, power, signalToNoise }];
    const found = combinePassages([
      passageAt(0, HZ, { endSeconds: 1, partials: partial(4, 100), noisePower: 1, unsteadinessCents: 1 }),
      passageAt(9, HZ, { endSeconds: 12, partials: partial(8, 200), noisePower: 3, unsteadinessCents: 3 }),
    ]);
    expect(found.partials[0].power).toBeCloseTo(7, 9);
    expect(found.partials[0].signalToNoise).toBeCloseTo(175, 9);
    expect(found.noisePower).toBeCloseTo(2.5, 9);
    // sqrt((1 * 1^2 + 3 * 3^2) / 4)
    expect(found.unsteadinessCents).toBeCloseTo(Math.sqrt(7), 9);
  });

  it("does not make up what one of the passages does not know", () => {
    const known = passageAt(0, HZ);
    const unknown = passageAt(9, HZ, {
      partials: [{ number: 1, power: 1, signalToNoise: null }],
      noisePower: null,
      frameCentroidHz: null,
    });
    const found = combinePassages([known, unknown]);
    expect(found.partials[0].signalToNoise).toBeNull();
    expect(found.noisePower).toBeNull();
    expect(found.frameCentroidHz).toBeNull();
  });

  it("does not care in which order the passages come", () => {
    const passage = fc.record({
      away: fc.double({ min: -10, max: 10, noNaN: true }),
      half: fc.double({ min: 0.05, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(passage, { minLength: 2, maxLength: 6 }), (drawn) => {
        const passages = drawn.map(({ away, half }, i) =>
          passageAt(9 * i, movedHz(HZ, away), { halfWidthCents: half }),
        );
        const forth = combinePassages(passages);
        const back = combinePassages([...passages].reverse());
        expect(back.frequencyHz).toBeCloseTo(forth.frequencyHz, 9);
        expect(halfWidth(back.interval95Cents)).toBeCloseTo(halfWidth(forth.interval95Cents), 8);
      }),
      { seed: SEED },
    );
  });
});
