import { describe, expect, it } from "vitest";
import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { isNearHum } from "../../src/partials/isNearHum.js";
import { linePower } from "../../src/partials/linePower.js";
import { noiseBetweenPartials } from "../../src/partials/noiseBetweenPartials.js";
import { partialsElsewhere } from "../../src/partials/partialsElsewhere.js";
import { unexplainedLine } from "../../src/partials/unexplainedLine.js";
import { averageSpectrum } from "../../src/signal/averageSpectrum.js";
import { cents } from "../../src/units/cents.js";
import { addNoise, NOTES_HZ, noteCases, oneOverN, steadySeries, toneOf } from "../synthesis/testTones.js";

const RATE = 8000;
const SIZE = 4096;
const spectrumOf = (samples: Float32Array) => averageSpectrum(samples, RATE, SIZE);
const sine = (amplitude: number, hz: number, length: number, phase = 1) =>
  steadySeries(hz, [amplitude], [phase], length, RATE);
const sum = (a: Float32Array, b: Float32Array) => a.map((value, i) => value + b[i]);

/** Density of white noise of a given deviation where a full-scale sine has power 1: twice its variance over 4 kHz. */
const densityOf = (deviation: number) => (2 * deviation ** 2) / (RATE / 2);

describe("linePower", () => {
  it("is the power of the line with the noise of nine bins", () => {
    const samples = addNoise(sine(0.1, 441.3, 80000), 0.02, 2);
    const spectrum = spectrumOf(samples);
    const noise = 9 * spectrum.binHz * densityOf(0.02);
    // Noise of nine bins over 38 segments is known to some 5 %, and here a seventh of the line's 0.01.
    expect(Math.abs(linePower(spectrum, 441.3) / (0.01 + noise) - 1)).toBeLessThan(0.02);
    // Noise alone, at another frequency: nine bins, about three of them independent, 38 segments; 10 % standard error.
    expect(Math.abs(linePower(spectrum, 2000) / noise - 1)).toBeLessThan(0.3);
  });

  it("is 0 beyond the spectrum", () => {
    expect(linePower(spectrumOf(sine(0.1, 440, 8000)), 5000)).toBe(0);
  });
});

describe("noiseBetweenPartials", () => {
  it.each(noteCases)("beside the partials of %s is what was put there", (_note, frequencyHz) => {
    let total = 0;
    let count = 0;
    for (let seed = 0; seed < 4; seed++) {
      const tone = toneOf({ frequencyHz, durationSeconds: 4, swingCents: 2, jitterCents: 0.5, seed });
      const spectrum = spectrumOf(addNoise(tone.samples, 2e-3, 60 + seed));
      for (let number = 1; number * frequencyHz < 2900; number++) {
        const ratio = noiseBetweenPartials(spectrum, frequencyHz, number)! / densityOf(2e-3);
        // One place: the median of some tens of bins, 15 segments; measured standard error 8 %.
        expect(Math.abs(ratio - 1)).toBeLessThan(0.4);
        total += ratio;
        count++;
      }
    }
    // Many places, neighbours of which share their bins: a standard error of 2 to 3 %.
    expect(Math.abs(total / count - 1)).toBeLessThan(0.08);
  });

  it("follows noise that is stronger at the bottom, and steps over a hum line", () => {
    const tone = toneOf({ frequencyHz: NOTES_HZ.G2, durationSeconds: 6 }).samples;
    let slow = 0;
    const white = addNoise(new Float32Array(tone.length), 1e-3, 4);
    const coloured = white.map((value) => {
      slow = 0.9 * slow + value;
      return slow;
    });
    const noisy = sum(sum(tone, coloured), sine(0.02, 150, tone.length));
    const spectrum = spectrumOf(noisy);
    for (const number of [1, 2, 5, 10, 20]) {
      // |1 / (1 - 0.9 exp(-jw))|^2, the response of the filter above.
      const w = (2 * Math.PI * number * NOTES_HZ.G2) / RATE;
      const expected = densityOf(1e-3) / (1 - 1.8 * Math.cos(w) + 0.81);
      const found = noiseBetweenPartials(spectrum, NOTES_HZ.G2, number)!;
      // One place, see above; the slope is bent by the neighbourhood: up to 30 % at the bottom.
      expect(found / expected).toBeGreaterThan(0.6);
      expect(found / expected).toBeLessThan(1.5);
    }
  });

  it("is null where the partials stand too close together", () => {
    const spectrum = averageSpectrum(sine(0.1, 50, 8000), RATE, 512); // bins of 15.6 Hz: lines 125 Hz wide
    expect(noiseBetweenPartials(spectrum, 50, 3)).toBeNull();
  });
});

describe("unexplainedLine", () => {
  const tone = addNoise(
    toneOf({ frequencyHz: NOTES_HZ.G2, durationSeconds: 4, swingCents: 2, jitterCents: 0.5 }).samples,
    1e-5,
    2,
  );
  const totalPower = oneOverN(NOTES_HZ.G2).reduce((all, amplitude) => all + amplitude ** 2, 0);
  const lineBeside = (samples: Float32Array) =>
    unexplainedLine(spectrumOf(samples), [NOTES_HZ.G2], totalPower, 1.5);

  it.each([
    [150, -20],
    [247, -40],
    [1222, -50],
  ])("finds a line of %i Hz at %i dB of the whole string", (hz, levelDb) => {
    const amplitude = Math.sqrt(totalPower) * 10 ** (levelDb / 20);
    const found = lineBeside(sum(tone, sine(amplitude, hz, tone.length)))!;
    expect(Math.abs(found.frequencyHz - hz)).toBeLessThanOrEqual(RATE / SIZE); // it names a bin
    // A line between two bins reads up to 0.83 dB low (Harris 1978, scalloping loss of this window).
    expect(found.levelDb - levelDb).toBeGreaterThan(-0.9);
    expect(found.levelDb - levelDb).toBeLessThan(0.1);
  });

  it("finds nothing to speak of beside a clean string, however it swings within reason", () => {
    for (const swingCents of [0, 2, 5]) {
      const clean = toneOf({
        frequencyHz: NOTES_HZ.G2,
        durationSeconds: 4,
        swingCents,
        jitterCents: 0.5,
      }).samples;
      const found = unexplainedLine(spectrumOf(clean), [NOTES_HZ.G2], totalPower, 0.5 + 0.7 * swingCents);
      expect(found === null ? Number.NEGATIVE_INFINITY : found.levelDb).toBeLessThan(-55);
    }
  });

  it("is null for silence and for no partials", () => {
    expect(lineBeside(new Float32Array(32000))).toBeNull();
    expect(unexplainedLine(spectrumOf(tone), [NOTES_HZ.G2], 0, 1)).toBeNull();
  });
});

describe("isNearHum", () => {
  it("is near within 3 Hz", () => {
    expect(isNearHum(98, [50, 100, 150])).toBe(true);
    expect(isNearHum(102.9, [50, 100, 150])).toBe(true);
    expect(isNearHum(97, [50, 100, 150])).toBe(false);
    expect(isNearHum(98, [])).toBe(false);
  });
});

describe("a hum line 2 Hz from G2, 20 dB below its fundamental", () => {
  const hum = [50, 100, 150, 200, 250, 300];

  it.each([1, 2, 3, 4])("does not pull the pitch by more than 0.05 cent (seed %i)", (seed) => {
    for (const partialAmplitudes of [oneOverN(NOTES_HZ.G2), [0.2, 0.1, 0.067], [0.2, 0.01, 0.01]]) {
      const tone = toneOf({
        frequencyHz: NOTES_HZ.G2,
        durationSeconds: 4.2,
        partialAmplitudes,
        seed,
        swingCents: 1,
        jitterCents: 0.5,
      });
      const clean = addNoise(tone.samples, 1e-4, seed);
      const samples = sum(clean, sine(0.02, 100, clean.length, seed));
      const fit = fitHarmonics({ samples, sampleRateHz: RATE, firstSeconds: 0 }, 0.1, 4.1, NOTES_HZ.G2, hum)!;
      expect(Math.abs(cents(fit.frequencyHz, tone.pitch.meanHz(0.1, 4.1)))).toBeLessThan(0.05);
      // ... while its level is still given: the hum is in it, as a hundredth of its power, and beats.
      expect(Math.abs(10 * Math.log10(fit.partials[0].power / 0.04))).toBeLessThan(0.5);
    }
  });

  it("nor one beside a string that is a quarter tone sharp, which would be pulled by it", () => {
    // 0.4 Hz apart over 4 s: 1.6 beats, the ends out of step. Three partials, so that one counts.
    const frequencyHz = 99.6;
    const read = (seed: number, humFrequenciesHz: number[]) => {
      const tone = toneOf({
        frequencyHz,
        durationSeconds: 4.2,
        partialAmplitudes: [0.2, 0.1, 0.067],
        seed,
        swingCents: 1,
        jitterCents: 0.5,
      });
      const samples = sum(addNoise(tone.samples, 1e-4, seed), sine(0.02, 100, tone.samples.length, seed));
      const segment = { samples, sampleRateHz: RATE, firstSeconds: 0 };
      const fit = fitHarmonics(segment, 0.1, 4.1, frequencyHz, humFrequenciesHz)!;
      return Math.abs(cents(fit.frequencyHz, tone.pitch.meanHz(0.1, 4.1)));
    };
    const seeds = [1, 2, 3, 4];
    expect(Math.max(...seeds.map((seed) => read(seed, [100])))).toBeLessThan(0.015); // measured 0.005
    expect(Math.max(...seeds.map((seed) => read(seed, [])))).toBeGreaterThan(0.02); // measured 0.045
  });

  it("is no reason to give up a string that has no other partial, or only high ones", () => {
    const alone = addNoise(sine(0.2, NOTES_HZ.G2, 33600), 1e-4, 1);
    const fit = fitHarmonics(
      { samples: alone, sampleRateHz: RATE, firstSeconds: 0 },
      0.1,
      4.1,
      NOTES_HZ.G2,
      hum,
    );
    expect(fit).not.toBeNull();
    expect(Math.abs(cents(fit!.frequencyHz, NOTES_HZ.G2))).toBeLessThan(0.05);
    // A string of 100.2 Hz has its partials 1 to 14 within 3 Hz of the mains' multiples.
    const tone = toneOf({ frequencyHz: 100.2, durationSeconds: 4.2, swingCents: 1 });
    const manyLines = Array.from({ length: 20 }, (_, index) => 50 * (index + 1));
    const samples = addNoise(tone.samples, 1e-4, 1);
    const other = fitHarmonics({ samples, sampleRateHz: RATE, firstSeconds: 0 }, 0.1, 4.1, 100.2, manyLines);
    expect(other).not.toBeNull();
    expect(Math.abs(cents(other!.frequencyHz, tone.pitch.meanHz(0.1, 4.1)))).toBeLessThan(0.05);
  });
});

describe("partialsElsewhere", () => {
  const tone = toneOf({
    frequencyHz: NOTES_HZ.G2,
    durationSeconds: 4.2,
    swingCents: 2,
    jitterCents: 0.5,
    levelSwingDb: 1,
  });
  const first = { samples: addNoise(tone.samples.slice(), 1e-3, 5), sampleRateHz: RATE, firstSeconds: 0 };
  const fit = fitHarmonics(first, 0.1, 4.1, NOTES_HZ.G2)!;
  const inDb = (powers: readonly number[]) =>
    powers.map((power, n) => 10 * Math.log10(power / fit.partials[n].power));

  it("of the same channel are those of the fit", () => {
    // The same course, held as an integral in cents: measured 0.003 dB at partial 30.
    for (const db of inDb(
      partialsElsewhere(
        first,
        fit,
        fit.partials.map(({ noiseDensity }) => noiseDensity),
      ).powers,
    )) {
      expect(Math.abs(db)).toBeLessThan(0.01);
    }
  });

  it("of a second channel at half the amplitude and upside down are 6.02 dB lower, its own noise taken off", () => {
    const samples = addNoise(
      tone.samples.map((value) => -0.5 * value),
      1e-3,
      6,
    );
    const spectrum = spectrumOf(samples);
    const noise = fit.partials.map(({ number }) => noiseBetweenPartials(spectrum, NOTES_HZ.G2, number));
    for (const db of inDb(partialsElsewhere({ ...first, samples }, fit, noise).powers)) {
      // Partial 30 stands 40 dB above the noise in a frame's width: 0.05 dB of chance.
      expect(Math.abs(db + 6.0206)).toBeLessThan(0.1);
    }
  });

  it("of a silent channel are 0, and not below", () => {
    const silent = { ...first, samples: new Float32Array(first.samples.length) };
    for (const power of partialsElsewhere(
      silent,
      fit,
      fit.partials.map(() => 1e-9),
    ).powers)
      expect(power).toBe(0);
  });

  it("of a string 4 cents off go astray, those of the same string do not", () => {
    const noise = fit.partials.map(({ noiseDensity }) => noiseDensity);
    expect(partialsElsewhere(first, fit, noise)).toMatchObject({ strayPower: 0, strayNumber: null });
    const other = toneOf({ frequencyHz: NOTES_HZ.G2 * 2 ** (4 / 1200), durationSeconds: 4.2, seed: 8 });
    const stray = partialsElsewhere({ ...first, samples: other.samples }, fit, noise);
    const total = stray.powers.reduce((sum, power) => sum + power, 0);
    // Partial 1 goes through 0.9 cycles in 4 s, the others through 1.8 and more; of 1/n it has 61 % of the power.
    expect(stray.strayPower).toBeCloseTo(total - stray.powers[0], 6);
    expect(stray.strayNumber).toBe(2);
  });
});
