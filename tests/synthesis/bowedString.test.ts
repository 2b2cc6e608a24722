import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BowedStringOptions, bowedString } from "../../src/synthesis/bowedString.js";
import { cents } from "../../src/units/cents.js";

const RATE = 8000;
const plain: BowedStringOptions = {
  frequencyHz: 100,
  durationSeconds: 2,
  sampleRateHz: RATE,
  seed: 5,
  partialAmplitudes: [0.2, 0.1, 0.05],
};

/** Peak amplitude at a frequency over a whole number of its periods: the Fourier integral itself. */
function amplitudeAt(samples: Float32Array, frequencyHz: number, from: number, to: number): number {
  let real = 0;
  let imaginary = 0;
  for (let i = from; i < to; i++) {
    const angle = (2 * Math.PI * frequencyHz * i) / RATE;
    real += samples[i] * Math.cos(angle);
    imaginary += samples[i] * Math.sin(angle);
  }
  return (2 * Math.hypot(real, imaginary)) / (to - from);
}

describe("bowedString", () => {
  it("gives each partial the amplitude that was asked for, and nothing between", () => {
    const { samples } = bowedString(plain);
    // From 0.5 to 1.5 s: clear of the fades, 100 whole periods. Float32 rounding: 1e-8.
    for (const [index, amplitude] of plain.partialAmplitudes.entries()) {
      expect(amplitudeAt(samples, 100 * (index + 1), 4000, 12000)).toBeCloseTo(amplitude, 6);
    }
    for (const hz of [50, 150, 250, 400, 1000, 3000]) {
      expect(amplitudeAt(samples, hz, 4000, 12000)).toBeLessThan(1e-7);
    }
  });

  it("leaves out partials beyond 45 % of the sample rate", () => {
    const partialAmplitudes = new Array(60).fill(0.01);
    const { samples } = bowedString({ ...plain, partialAmplitudes });
    expect(amplitudeAt(samples, 3500, 4000, 12000)).toBeCloseTo(0.01, 6);
    // 36 * 100 Hz is 45 %; what would fold from 44 * 100 Hz would stand at 3600 too.
    for (const hz of [3600, 3700, 3800, 3900]) {
      expect(amplitudeAt(samples, hz, 4000, 12000)).toBeLessThan(1e-7);
    }
  });

  it("its realised mean is the integral of what was asked: the swing, from its own definition", () => {
    // With no jitter and an even wheel the pitch is f 2^(M sin(phase) / 1200). Over whole turns its mean is
    // f * I0(M ln 2 / 1200), I0(x) = 1 + x^2 / 4 + ... (the modified Bessel function).
    const swung = { ...plain, durationSeconds: 5, swingCents: 30, swingRateHz: 1 };
    const { pitch } = bowedString(swung);
    const x = (30 * Math.LN2) / 1200;
    const expected = 100 * (1 + x ** 2 / 4 + x ** 4 / 64);
    // Deviations are held in float32 (1e-7 of 30 cents): 1e-6 cents would be 6e-8 Hz.
    expect(Math.abs(cents(pitch.meanHz(0.3, 4.3), expected))).toBeLessThan(1e-4);
    expect(Math.abs(cents(pitch.meanHz(1.7, 2.7), expected))).toBeLessThan(1e-4);
    // Over half a turn it is off by up to 2 / pi of the swing: the swing is really there, and as large as asked.
    const halves = Array.from({ length: 40 }, (_, i) =>
      cents(pitch.meanHz(i * 0.05, i * 0.05 + 0.5), expected),
    );
    // 40 phases of a turn hit the largest within cos(2 pi / 40) or 1.2 %.
    expect(Math.max(...halves)).toBeGreaterThan(0.98 * 30 * (2 / Math.PI));
    expect(Math.max(...halves)).toBeLessThan(1.005 * 30 * (2 / Math.PI)); // cents bend the average by x / 2, 0.4 %
  });

  it("the sound does have that pitch: phase gone through, counted by zero crossings", () => {
    const options = {
      ...plain,
      partialAmplitudes: [0.3],
      swingCents: 20,
      swingRateHz: 1.3,
      jitterCents: 5,
      durationSeconds: 4,
    };
    const { samples, pitch } = bowedString(options);
    const crossings: number[] = [];
    for (let i = 8 * 80; i < samples.length - 8 * 160; i++) {
      if (samples[i] < 0 && samples[i + 1] >= 0)
        crossings.push((i + samples[i] / (samples[i] - samples[i + 1])) / RATE);
    }
    const from = crossings[0];
    const to = crossings[crossings.length - 1];
    const counted = (crossings.length - 1) / (to - from);
    // A line through two samples 1/80 of a period apart misses the crossing by under 1e-5 of a period; of some 380 periods
    // that is 5e-5 cents.
    expect(Math.abs(cents(pitch.meanHz(from, to), counted))).toBeLessThan(1e-3);
  });

  it("an endless take has the mean that was asked for, to the second order of the movement", () => {
    const { pitch } = bowedString({ ...plain, durationSeconds: 60, jitterCents: 2, jitterSeconds: 0.05 });
    // First-order Gauss-Markov process: the mean over T has a standard deviation of sd sqrt(2 tau / T) = 0.082 cents; four of them.
    expect(Math.abs(cents(pitch.meanHz(0, 60), pitch.underlyingHz))).toBeLessThan(
      4 * 2 * Math.sqrt(0.1 / 60),
    );
    // Jitter is as large as asked, in means over 10 ms (shorter than its correlation time; they keep 94 % of the variance).
    const short = Array.from({ length: 5900 }, (_, i) => cents(pitch.meanHz(i * 0.01, i * 0.01 + 0.01), 100));
    const variance = short.reduce((sum, value) => sum + value * value, 0) / short.length;
    // 60 s hold 600 independent values of it: variance known to 6 %; three times that.
    expect(Math.abs(variance / (4 * 0.94) - 1)).toBeLessThan(0.2);
  });

  it("repeats for the same seed; another seed gives other phases and another movement", () => {
    const options = { ...plain, durationSeconds: 0.5, swingCents: 2, jitterCents: 1, swingRateSpread: 0.05 };
    expect(bowedString(options).samples).toEqual(bowedString(options).samples);
    expect(bowedString({ ...options, seed: 6 }).samples).not.toEqual(bowedString(options).samples);
    expect(bowedString({ ...options, seed: 6 }).pitch.meanHz(0, 0.5)).not.toBe(
      bowedString(options).pitch.meanHz(0, 0.5),
    );
  });

  it("fades in and out as a raised cosine, and is loud in between", () => {
    const { samples } = bowedString({
      ...plain,
      partialAmplitudes: [0.5],
      attackSeconds: 0.4,
      releaseSeconds: 0.8,
    });
    const at = (seconds: number) => {
      const middle = Math.round(seconds * RATE);
      return amplitudeAt(samples, 100, middle - 80, middle + 80) / 0.5; // two periods
    };
    expect(samples[0]).toBeCloseTo(0, 12);
    // Half-way through a raised cosine: 1/2; a quarter: (1 - cos 45 deg) / 2 = 0.1464. Straight over 20 ms to 1e-3.
    expect(at(0.2)).toBeCloseTo(0.5, 2);
    expect(at(0.1)).toBeCloseTo(0.1464, 2);
    expect(at(0.8)).toBeCloseTo(1, 4);
    expect(at(1.6)).toBeCloseTo(0.5, 2);
    expect(at(1.98)).toBeLessThan(0.01);
  });

  it("swings its level by what was asked, peak", () => {
    const { samples } = bowedString({
      ...plain,
      durationSeconds: 4,
      partialAmplitudes: [0.3],
      levelSwingDb: 3,
      swingRateHz: 1,
    });
    const levels = Array.from({ length: 100 }, (_, i) => {
      const middle = 8000 + i * 160;
      return 20 * Math.log10(amplitudeAt(samples, 100, middle - 80, middle + 80) / 0.3);
    });
    // Two turns in steps of 20 ms; a mean over 20 ms and a step lose 0.2 % of the extremes.
    expect(Math.max(...levels)).toBeCloseTo(3, 1);
    expect(Math.min(...levels)).toBeCloseTo(-3, 1);
  });

  it("holds as many samples as the duration says, at any rate", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(8000, 11025, 44100, 48000, 96000),
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        (sampleRateHz, durationSeconds) => {
          const { samples } = bowedString({ ...plain, sampleRateHz, durationSeconds });
          expect(samples.length).toBe(Math.round(sampleRateHz * durationSeconds));
          // No louder than the partials together (0.35), no NaN.
          expect(samples.every((value) => Math.abs(value) <= 0.35 + 1e-6)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([8000, 44100, 48000, 96000])("has the same pitch at %i Hz", (sampleRateHz) => {
    const { pitch } = bowedString({ ...plain, sampleRateHz });
    expect(Math.abs(cents(pitch.meanHz(0.2, 1.8), 100))).toBeLessThan(1e-6); // double rounding of a sum of 2e5 terms
  });
});
