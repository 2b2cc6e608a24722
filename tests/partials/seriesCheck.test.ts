import { describe, expect, it } from "vitest";
import { noiseBetweenPartials } from "../../src/partials/noiseBetweenPartials.js";
import { type SeriesCheck, seriesCheck } from "../../src/partials/seriesCheck.js";
import { averageSpectrum } from "../../src/signal/averageSpectrum.js";
import { addNoise, NOTES_HZ, noteCases, oneOverN, toneOf } from "../synthesis/testTones.js";

const RATE = 8000;

function sound(frequencyHz: number, partialAmplitudes = oneOverN(frequencyHz), seed = 3): Float32Array {
  const tone = toneOf({
    frequencyHz,
    durationSeconds: 4,
    partialAmplitudes,
    seed,
    swingCents: 2,
    jitterCents: 0.5,
  });
  return addNoise(tone.samples, 1e-4, seed + 1);
}

function check(samples: Float32Array, startHz: number): SeriesCheck {
  const spectrum = averageSpectrum(samples, RATE, 4096);
  return seriesCheck(spectrum, startHz, noiseBetweenPartials(spectrum, startHz, 3) ?? 0);
}

const alone = { otherHz: null, togetherHz: null };

/** Odd partials weaker by so many dB. */
const weakOdd = (frequencyHz: number, levelDb: number) =>
  oneOverN(frequencyHz).map((amplitude, n) => (n % 2 === 0 ? amplitude * 10 ** (levelDb / 20) : amplitude));

describe("seriesCheck", () => {
  it.each(noteCases)("leaves %s alone where it is right", (_note, frequencyHz) => {
    expect(check(sound(frequencyHz), frequencyHz)).toEqual({ frequencyHz, ...alone });
  });

  it.each(noteCases.filter(([, hz]) => hz > 90))(
    "moves up to %s from an octave or a twelfth below",
    (_note, frequencyHz) => {
      const samples = sound(frequencyHz);
      for (const divisor of [2, 3]) {
        if (frequencyHz / divisor < 40) continue;
        const found = check(samples, frequencyHz / divisor);
        expect(found.frequencyHz).toBeCloseTo(frequencyHz, 6);
        expect(found).toMatchObject(alone);
      }
    },
  );

  it.each(noteCases.filter(([, hz]) => hz < 400))(
    "moves down to %s from an octave or a twelfth above",
    (_note, frequencyHz) => {
      const samples = sound(frequencyHz);
      for (const factor of [2, 3]) {
        const found = check(samples, frequencyHz * factor);
        expect(found.frequencyHz).toBeCloseTo(frequencyHz, 6);
        expect(found).toMatchObject(alone);
      }
    },
  );

  it("goes by the partials that are there, not by the fundamental", () => {
    for (const frequencyHz of [NOTES_HZ.C2, NOTES_HZ.G2, NOTES_HZ.G3]) {
      const amplitudes = oneOverN(frequencyHz).map((amplitude, n) => (n === 0 ? 0 : amplitude));
      const samples = sound(frequencyHz, amplitudes);
      expect(check(samples, frequencyHz).frequencyHz).toBe(frequencyHz);
      expect(check(samples, 2 * frequencyHz).frequencyHz).toBeCloseTo(frequencyHz, 6);
    }
  });

  it.each([NOTES_HZ.G2, NOTES_HZ.G3])(
    "of odd partials that fade, at %d Hz, it first doubts and then goes an octave up",
    (frequencyHz) => {
      const from = (levelDb: number, startHz: number) =>
        check(sound(frequencyHz, weakOdd(frequencyHz, levelDb)), startHz);
      // Share of the odd partials in all power, by arithmetic: -20 dB -15.2, -30 dB -25.1, -40 dB -35.1 dB. The policy
      // doubts below -22 dB and moves up below -32 dB.
      expect(from(-10, frequencyHz)).toEqual({ frequencyHz, ...alone });
      expect(from(-20, frequencyHz)).toEqual({ frequencyHz, ...alone });
      expect(from(-30, frequencyHz)).toEqual({ frequencyHz, otherHz: 2 * frequencyHz, togetherHz: null });
      expect(from(-40, frequencyHz)).toEqual({ frequencyHz: 2 * frequencyHz, ...alone });
      // From above it stays where they are below -20 dB of all, with a doubt near that bar: an octave ringing in sympathy.
      expect(from(-20, 2 * frequencyHz)).toEqual({ frequencyHz, ...alone });
      expect(from(-25, 2 * frequencyHz)).toEqual({
        frequencyHz: 2 * frequencyHz,
        otherHz: frequencyHz,
        togetherHz: null,
      });
      expect(from(-40, 2 * frequencyHz)).toEqual({ frequencyHz: 2 * frequencyHz, ...alone });
    },
  );

  it.each([
    ["C3 and G3", NOTES_HZ.C3, 2, 3],
    ["G2 and D3", NOTES_HZ.G2, 2, 3],
    ["G3 and D4", NOTES_HZ.G3, 2, 3],
    ["G3 and C4", NOTES_HZ.G3, 3, 4],
  ])("sees %s sounding together: two strings, not one of their common series", (_name, lowerHz, p, q) => {
    const upperHz = (lowerHz * q) / p;
    const lower = sound(lowerHz);
    for (const upperDb of [0, -10]) {
      const upper = sound(upperHz, oneOverN(upperHz, 0.2 * 10 ** (upperDb / 20)), 8);
      const both = lower.map((value, i) => value + upper[i]);
      const { togetherHz } = check(both, lowerHz / p);
      expect(togetherHz![0]).toBeCloseTo(lowerHz, 6);
      expect(togetherHz![1]).toBeCloseTo(upperHz, 6);
    }
    // A string that really is their common fundamental has partials of its own between: 1, 5, 7, 11, ...
    expect(check(sound(lowerHz / p), lowerHz / p).togetherHz).toBeNull();
  });

  it("does not take noise for partials", () => {
    const tone = toneOf({ frequencyHz: NOTES_HZ.G3, durationSeconds: 4 }).samples;
    for (let seed = 0; seed < 10; seed++) {
      // Fundamental 20 dB above the noise of the whole band.
      const samples = addNoise(tone.slice(), 0.014, seed);
      expect(check(samples, NOTES_HZ.G3)).toEqual({ frequencyHz: NOTES_HZ.G3, ...alone });
    }
  });
});
