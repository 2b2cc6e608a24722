import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { FIT_MARGIN_SECONDS, fitHarmonics } from "../../src/partials/fitHarmonics.js";
import type { HarmonicFit } from "../../src/partials/HarmonicFit.js";
import { Decimator } from "../../src/signal/Decimator.js";
import { median } from "../../src/signal/median.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { cents, shiftByCents } from "../../src/units/cents.js";
import { addNoise, NOTES_HZ, noteCases, oneOverN, toneOf } from "../synthesis/testTones.js";

const RATE = 8000;

const fitted = (samples: Float32Array, from: number, to: number, startHz: number): HarmonicFit =>
  fitHarmonics({ samples, sampleRateHz: RATE, firstSeconds: 0 }, from, to, startHz)!;

function swungNote(frequencyHz: number, swingCents: number, seed: number) {
  const tone = toneOf({ frequencyHz, durationSeconds: 6.2, swingCents, jitterCents: 0.5, seed });
  return { samples: addNoise(tone.samples, 1e-3, seed + 50), pitch: tone.pitch };
}

describe("fitHarmonics against the realised mean of the passage", () => {
  const errors: number[] = [];

  // The bars are 0.15 cent in the median and 0.4 at worst. A swinging pitch is followed by frames, and what each end frame
  // misses of the phase is all that is lost: 0.5 cent of jitter over 50 ms at both ends of 6 s is some 0.006 cents.
  // Measured: median 0.004, worst 0.013; held to some three times that.
  it.each(noteCases.flatMap(([note, hz]) => [1, 2, 3].map((swingCents) => [note, hz, swingCents] as const)))(
    "%s (%d Hz) with a swing of %d cents, 6 s, from starts up to 15 cents off",
    (_note, frequencyHz, swingCents) => {
      for (const [index, start] of [-15, 4, 15].entries()) {
        const { samples, pitch } = swungNote(frequencyHz, swingCents, 10 * swingCents + index);
        const fit = fitted(samples, 0.1, 6.1, shiftByCents(frequencyHz, start));
        const error = cents(fit.frequencyHz, pitch.meanHz(0.1, 6.1));
        errors.push(Math.abs(error));
        expect(Math.abs(error)).toBeLessThan(0.04);
        expect(fit.steady).toBe(false);
      }
    },
  );

  it("in the median over all of these, within 0.012 cents", () => {
    expect(errors).toHaveLength(noteCases.length * 9);
    expect(median(errors)).toBeLessThan(0.012);
  });

  it.each([0.5, 1, 2])("short passages too: %d s", (seconds) => {
    // Both ends weigh the more, the shorter the passage: 0.04 cents over 6 s make 0.5 cents over half a second.
    for (const [, frequencyHz] of noteCases) {
      const { samples, pitch } = swungNote(frequencyHz, 2, 7);
      const fit = fitted(samples, 1.03, 1.03 + seconds, shiftByCents(frequencyHz, 8));
      expect(Math.abs(cents(fit.frequencyHz, pitch.meanHz(1.03, 1.03 + seconds)))).toBeLessThan(
        0.24 / seconds,
      );
    }
  });

  it("a start 15 cents off makes no difference", () => {
    for (const [, frequencyHz] of noteCases) {
      const { samples } = swungNote(frequencyHz, 2, 4);
      const readings = [-15, 0, 15].map(
        (off) => fitted(samples, 0.1, 3.1, shiftByCents(frequencyHz, off)).frequencyHz,
      );
      // Frames lie a little differently, as the hop is a whole number of periods of the start: measured 0.0001 cents.
      expect(Math.abs(cents(Math.max(...readings), Math.min(...readings)))).toBeLessThan(0.002);
    }
  });

  it("its course says how the pitch went: means over any stretch are differences of it", () => {
    const frequencyHz = NOTES_HZ.G2;
    const { samples, pitch } = swungNote(frequencyHz, 3, 9);
    const { course, frequencyHz: meanHz } = fitted(samples, 0.1, 6.1, frequencyHz);
    const { hopSeconds, centSeconds } = course;
    const half = Math.round(0.36 / hopSeconds);
    let worst = 0;
    for (let m = 10; m + half < centSeconds.length - 10; m += 5) {
      const mean = (centSeconds[m + half] - centSeconds[m]) / (half * hopSeconds);
      const from = 0.1 + m * hopSeconds;
      const truth = cents(pitch.meanHz(from, from + half * hopSeconds), meanHz);
      worst = Math.max(worst, Math.abs(mean - truth));
    }
    // Half-turn means reach 3 * 2 / pi = 1.9 cents either way. Smoothing over 120 ms keeps 97 % of a swing of 1.4 turns
    // a second (0.06 cents) and loses some of the jitter (0.1 cents).
    expect(worst).toBeLessThan(0.2);
  });
});

describe("partial powers", () => {
  it.each(noteCases)(
    "of %s within 0.2 dB in the median and 0.6 at worst, swinging in pitch and level",
    (_note, frequencyHz) => {
      // The bars. What is held is a third of them: a noise of -40 dB in the width of a frame moves one by up to
      // 0.1 dB; the swing, followed, costs 0.02. Nine whole turns, so the swing's own mean is exact.
      const amplitudes = oneOverN(frequencyHz);
      const { samples } = toneOf({
        frequencyHz,
        durationSeconds: 6.2,
        swingCents: 2,
        swingRateHz: 1.5,
        jitterCents: 0.5,
        levelSwingDb: 1.5,
        attackSeconds: 0,
        releaseSeconds: 0,
      });
      addNoise(samples, 5e-3, 3);
      const { partials } = fitted(samples, 0.1, 6.1, frequencyHz);
      let swungPower = 0;
      for (let i = 0; i < 360; i++) swungPower += 10 ** (0.15 * Math.cos((2 * Math.PI * i) / 360)) / 360;
      const errors = partials
        .filter(({ signalToNoise }) => signalToNoise !== null && signalToNoise > 100)
        .map(({ number, power }) =>
          Math.abs(10 * Math.log10(power / (amplitudes[number - 1] ** 2 * swungPower))),
        );
      expect(errors.length).toBeGreaterThanOrEqual(Math.min(20, partials.length));
      expect(median(errors)).toBeLessThan(0.07);
      expect(Math.max(...errors)).toBeLessThan(0.2);
    },
  );

  it("are numbered from 1, reach up to 3 kHz, and carry the noise beside them", () => {
    const { samples } = swungNote(NOTES_HZ.C3, 1, 2); // noise of 1e-3
    const { partials } = fitted(samples, 0.1, 6.1, NOTES_HZ.C3);
    expect(partials.map(({ number }) => number)).toEqual(partials.map((_, index) => index + 1));
    expect(partials).toHaveLength(22); // 22 * 130.8 = 2878; 23 * 130.8 = 3009
    // White noise of variance v has density 2 v / 4000 where a full-scale sine has power 1; the median of eight
    // neighbourhoods of some 100 independent values each is known to about 5 %.
    const densities = partials.map(({ noiseDensity }) => noiseDensity!);
    expect(Math.abs(median(densities) / (2e-6 / 4000) - 1)).toBeLessThan(0.2);
  });

  it("have the noise taken off: right in the mean even for a partial just above it", () => {
    // Partial 4 with twice the noise that is in the width of its frame (some 11 Hz of 5e-8 per hertz): left in, the
    // noise would read half as much again.
    const weak = 1.05e-3;
    let total = 0;
    for (let seed = 0; seed < 12; seed++) {
      const partialAmplitudes = [0.2, 0.1, 0.07, weak, 0.04];
      const tone = toneOf({ frequencyHz: NOTES_HZ.G3, durationSeconds: 3.2, partialAmplitudes, seed });
      const { partials } = fitted(addNoise(tone.samples, 1e-2, 40 + seed), 0.1, 3.1, NOTES_HZ.G3);
      total += partials[3].power / weak ** 2 / 12;
    }
    // 12 takes of 3 s with some 35 independent values each, every one scattered by 1.1 of the whole: 5 %; three times.
    expect(Math.abs(total - 1)).toBeLessThan(0.16);
  });

  it("of a partial that is not there are lost in noise", () => {
    const partialAmplitudes = oneOverN(NOTES_HZ.G3).map((amplitude, index) => (index === 3 ? 0 : amplitude));
    const tone = toneOf({ frequencyHz: NOTES_HZ.G3, durationSeconds: 4, partialAmplitudes, swingCents: 1 });
    const { partials } = fitted(addNoise(tone.samples, 1e-3, 3), 0.2, 3.8, NOTES_HZ.G3);
    // No more than three times the noise that is in its frame.
    expect(partials[3].signalToNoise!).toBeLessThan(3);
    expect(partials[2].signalToNoise!).toBeGreaterThan(1000);
    expect(partials[4].signalToNoise!).toBeGreaterThan(1000);
  });
});

describe("what must not matter to fitHarmonics", () => {
  // 0.02 cents is the bar for all of these; exact ones are held to rounding.
  it.each(noteCases)("%s: gain, polarity, leading silence, time reversal", (_note, frequencyHz) => {
    const { samples, pitch } = swungNote(frequencyHz, 2, 6);
    const base = fitted(samples, 0.1, 4.1, frequencyHz).frequencyHz;
    const off = (other: number) => Math.abs(cents(other, base));
    for (const gain of [0.1, 1e-3, 1e-5, -1]) {
      const scaled = samples.map((value) => value * gain);
      // Scaling rounds float32 samples: noise 150 dB down.
      expect(off(fitted(scaled, 0.1, 4.1, frequencyHz).frequencyHz)).toBeLessThan(1e-4);
    }
    const later = new Float32Array(samples.length + 4001);
    later.set(samples, 4001);
    const shift = 4001 / RATE;
    expect(off(fitted(later, 0.1 + shift, 4.1 + shift, frequencyHz).frequencyHz)).toBeLessThan(1e-4);
    const placed = { samples, sampleRateHz: RATE, firstSeconds: 100 };
    expect(off(fitHarmonics(placed, 100.1, 104.1, frequencyHz)!.frequencyHz)).toBeLessThan(1e-4);
    // Frames lie elsewhere on the reversed sound, and each reading has its own small error at the ends: measured 0.002
    // to 0.012 cents between the two.
    const end = (samples.length - 1) / RATE;
    const back = fitted(samples.slice().reverse(), end - 4.1, end - 0.1, frequencyHz).frequencyHz;
    expect(off(back)).toBeLessThan(0.02);
    expect(Math.abs(cents(back, pitch.meanHz(0.1, 4.1)))).toBeLessThan(0.04);
  });

  it.each([11025, 16000, 22050, 44100, 48000, 96000])("sample rate: %i Hz", (sampleRateHz) => {
    for (const frequencyHz of [NOTES_HZ.C2, NOTES_HZ.G4]) {
      // The same course of pitch at every rate: no jitter, the same seed, and whole turns of the wheel.
      const tone = bowedString({
        frequencyHz,
        durationSeconds: 3.2,
        sampleRateHz,
        seed: 2,
        partialAmplitudes: Array.from({ length: Math.floor(8000 / frequencyHz) }, (_, n) => 0.2 / (n + 1)),
        swingCents: 2,
        swingRateHz: 1,
      });
      const decimator = new Decimator(sampleRateHz);
      const parts = [decimator.push(tone.samples), decimator.finish()];
      const samples = Float32Array.from(parts.flatMap((part) => [...part]));
      const segment = { samples, sampleRateHz: decimator.outputRateHz, firstSeconds: 0 };
      const fit = fitHarmonics(segment, 0.1, 3.1, shiftByCents(frequencyHz, -9))!;
      expect(Math.abs(cents(fit.frequencyHz, tone.pitch.meanHz(0.1, 3.1)))).toBeLessThan(0.02);
      // Whole turns: the mean is what was asked for, to the second order of the swing (0.0006 cents).
      expect(Math.abs(cents(fit.frequencyHz, frequencyHz))).toBeLessThan(0.02);
    }
  });
});

describe("fitHarmonics where there is little to go by", () => {
  it("gives null for noise and for silence", () => {
    for (let seed = 0; seed < 20; seed++) {
      const white = addNoise(new Float32Array(9600), 0.1, seed);
      let last = 0;
      const brown = white.map((value) => {
        last = 0.995 * last + value;
        return last;
      });
      for (const frequencyHz of [NOTES_HZ.C2, NOTES_HZ.G3, NOTES_HZ.G5]) {
        expect(fitted(white, 0.1, 1.1, frequencyHz)).toBeNull();
        expect(fitted(brown, 0.1, 1.1, frequencyHz)).toBeNull();
      }
    }
    expect(fitted(new Float32Array(9600), 0.1, 1.1, 100)).toBeNull();
  });

  it.each([20, 10, 5, 0, -5, -10])(
    "with the fundamental at %i dB signal-to-noise, it is right or says nothing",
    (level) => {
      for (let seed = 0; seed < 25; seed++) {
        const frequencyHz = seed % 2 === 0 ? NOTES_HZ.C2 : NOTES_HZ.G3;
        const { samples } = toneOf({ frequencyHz, durationSeconds: 1.7, seed });
        addNoise(samples, 0.2 / Math.SQRT2 / 10 ** (level / 20), 70 + seed);
        const fit = fitted(samples, 0.1, 1.6, shiftByCents(frequencyHz, (seed % 7) * 4 - 12));
        if (fit === null) {
          expect(level).toBeLessThan(0); // at 0 dB and above it always has something
          continue;
        }
        // Four times the standard error that it claims itself: 150 readings, one in 16,000 by chance.
        expect(Math.abs(cents(fit.frequencyHz, frequencyHz))).toBeLessThan(4 * fit.noiseErrorCents);
        expect(fit.noiseErrorCents).toBeLessThan(0.3);
      }
    },
  );

  it("refuses a start that no string has", () => {
    for (const startHz of [29, 3001, 0, -100, Number.NaN]) {
      expect(() => fitted(new Float32Array(9600), 0.1, 1.1, startHz)).toThrow(AnalysisError);
    }
  });

  it("measures a passage at the very start and end of the sound, without margins, nearly as well", () => {
    const tone = toneOf({
      frequencyHz: NOTES_HZ.G2,
      durationSeconds: 3,
      swingCents: 1,
      attackSeconds: 0,
      releaseSeconds: 0,
    });
    const fit = fitted(tone.samples, 0, 3, NOTES_HZ.G2);
    // Half of the first and last frame is missing: their phase is that of 5 ms further in.
    expect(Math.abs(cents(fit.frequencyHz, tone.pitch.meanHz(0, 3)))).toBeLessThan(0.1);
    expect(FIT_MARGIN_SECONDS).toBeGreaterThan(0.01);
  });
});
