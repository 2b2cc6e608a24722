import { describe, expect, it } from "vitest";
import type { HarmonicFit } from "../../src/partials/HarmonicFit.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { pitchSteadiness } from "../../src/strings/pitchSteadiness.js";

const HOP_SECONDS = 0.01;

/** A fit of which only the course matters: the pitch in cents at each time, integrated. */
function fitAlong(
  durationSeconds: number,
  centsAt: (seconds: number) => number,
  rest: Partial<HarmonicFit> = {},
): HarmonicFit {
  const count = Math.round(durationSeconds / HOP_SECONDS) + 1;
  const centSeconds = new Float64Array(count);
  for (let m = 1; m < count; m++) {
    centSeconds[m] = centSeconds[m - 1] + centsAt((m - 0.5) * HOP_SECONDS) * HOP_SECONDS;
  }
  // The fit's frequency is the mean over the passage: what is left has mean 0.
  const mean = centSeconds[count - 1] / (count - 1);
  return {
    startSeconds: 1,
    endSeconds: 1 + durationSeconds,
    frequencyHz: 98,
    steady: false,
    noiseErrorCents: 0,
    course: { hopSeconds: HOP_SECONDS, centSeconds: centSeconds.map((value, m) => value - mean * m) },
    gain: new Float64Array(count).fill(1),
    partials: [],
    strayedPartials: [],
    followedCount: 0,
    ...rest,
  };
}

function gaussMarkov(
  deviation: number,
  correlationSeconds: number,
  seed: number,
): (seconds: number) => number {
  const random = new SeededRandom(seed);
  const keep = Math.exp(-HOP_SECONDS / correlationSeconds);
  let value = random.normal(deviation);
  return () => {
    const now = value;
    value = value * keep + random.normal(deviation * Math.sqrt(1 - keep * keep));
    return now;
  };
}

const halfWidth = (interval: readonly [number, number] | null) => (interval![1] - interval![0]) / 2;

describe("pitchSteadiness", () => {
  it.each([
    [1, 0.8],
    [2, 1.4],
    [3, 2.5],
  ])("finds a swing of %f cents at %f turns a second", (swingCents, rateHz) => {
    const jitter = gaussMarkov(0.3, 0.05, 40 + swingCents);
    const fit = fitAlong(6, (t) => swingCents * Math.sin(2 * Math.PI * rateHz * t + 0.7) + jitter(t));
    const found = pitchSteadiness(fit);
    // Rate of a sine in white noise (Rife & Boorstyn 1974): sd = sqrt(6 / (N T^2)) / pi * sd / amplitude, below 0.01 here;
    // movement at random with a memory of 50 ms holds about three times that at the swing's own rate.
    expect(Math.abs(found.swingRateHz! - rateHz)).toBeLessThan(0.04);
    // Steps of 50 ms take (1 - sinc) off: 2.5 % at 2.5 turns; the jitter adds about 0.3 * sqrt(2 * 0.1 / 6) = 0.05.
    expect(Math.abs(found.swingCents! - swingCents)).toBeLessThan(0.025 * swingCents + 0.15);
  });

  it("gives unsteadiness as a standard deviation, swing included", () => {
    // A sine of 3 cents has a standard deviation of 3 / sqrt(2); over whole turns of many steps that is exact to 2 %.
    const found = pitchSteadiness(fitAlong(6, (t) => 3 * Math.sin(2 * Math.PI * t)));
    expect(Math.abs(found.unsteadinessCents - 3 / Math.SQRT2)).toBeLessThan(0.02 * 3);
  });

  it("takes the swing out of the interval", () => {
    const still = pitchSteadiness(fitAlong(6, gaussMarkov(0.3, 0.05, 77)));
    const jitter = gaussMarkov(0.3, 0.05, 77);
    const swinging = pitchSteadiness(
      fitAlong(6, (t) => 3 * Math.sin(2 * Math.PI * 1.37 * t + 0.2) + jitter(t)),
    );
    // Without, 3 cents of swing would leave a half width of half a cent and more; blocks of whole turns may differ a bit.
    expect(halfWidth(swinging.interval95Cents)).toBeLessThan(2 * halfWidth(still.interval95Cents));
  });

  it("moves the interval from the mean of a passage that is no whole number of turns to the pitch beneath", () => {
    // 4.1 turns, the tenth of a turn about the peak of the swing: the plain mean is 3 * |sinc(4.1)| = 0.072 cents off.
    const truth = 0.25;
    const jitter = gaussMarkov(0.02, 0.03, 78);
    const swing = (t: number) => 3 * Math.sin(2 * Math.PI * t + 0.4 * Math.PI);
    const fit = fitAlong(4.1, (t) => truth + swing(t) + jitter(t));
    const plain = meanOf(4.1, (t) => truth + swing(t));
    const [lower, upper] = pitchSteadiness(fit).interval95Cents!;
    const middle = (lower + upper) / 2;
    expect(Math.abs(truth - plain)).toBeCloseTo(0.072, 3);
    // The rate of the swing is found to a grid, which leaves part of the bias in; more than half of it must be gone, and
    // what is left must be in the interval.
    expect(Math.abs(middle - (truth - plain))).toBeLessThan(0.036);
    expect(lower).toBeLessThan(truth - plain);
    expect(upper).toBeGreaterThan(truth - plain);
  });

  it("does not make a large swing of movement at random", () => {
    // No rate stands for ever in such movement, but over a few turns one may seem to. It stays within what the strongest
    // of the 40 or so rates in 6 s holds of it: sd * sqrt(4 tau / T * ln 40) = 1.1 sd at 0.2 s, and a half more by chance.
    for (let i = 0; i < 100; i++) {
      const found = pitchSteadiness(fitAlong(6, gaussMarkov(0.4, 0.02 + 0.0018 * i, 5000 + i)));
      expect(found.swingCents ?? 0).toBeLessThan(1.6 * 0.4);
    }
  });

  it("claims no swing of a steady pitch and gives the interval that noise leaves", () => {
    const found = pitchSteadiness(fitAlong(4, () => 0, { steady: true, noiseErrorCents: 0.02 }));
    expect(found).toMatchObject({ swingCents: null, swingRateHz: null, unsteadinessCents: 0 });
    // 1.96 standard errors, and the least width of 0.001 cents added as a square.
    expect(halfWidth(found.interval95Cents)).toBeCloseTo(Math.hypot(1.959964 * 0.02, 0.001), 9);
  });

  it("never gives an interval narrower than 0.001 cents to either side", () => {
    const found = pitchSteadiness(fitAlong(4, () => 0, { steady: true, noiseErrorCents: 0 }));
    expect(halfWidth(found.interval95Cents)).toBeCloseTo(0.001, 12);
  });

  it("has no interval for a moving pitch that lasts less than 0.75 s", () => {
    expect(pitchSteadiness(fitAlong(0.7, gaussMarkov(0.5, 0.05, 5))).interval95Cents).toBeNull();
    expect(pitchSteadiness(fitAlong(1.5, gaussMarkov(0.5, 0.05, 5))).interval95Cents).not.toBeNull();
  });

  it("narrows with the root of the length", () => {
    const middleOf = (seconds: number) => {
      const widths = Array.from({ length: 60 }, (_, i) =>
        halfWidth(pitchSteadiness(fitAlong(seconds, gaussMarkov(0.5, 0.05, 900 + i))).interval95Cents),
      );
      return widths.sort((a, b) => a - b)[30];
    };
    // Four times as long: half as wide, and a little less for Student's t and the correction for few blocks.
    const ratio = middleOf(4) / middleOf(16);
    expect(ratio).toBeGreaterThan(1.7);
    expect(ratio).toBeLessThan(2.9);
  });
});

function meanOf(durationSeconds: number, centsAt: (seconds: number) => number): number {
  const count = Math.round(durationSeconds / HOP_SECONDS);
  let sum = 0;
  for (let m = 0; m < count; m++) sum += centsAt((m + 0.5) * HOP_SECONDS);
  return sum / count;
}
