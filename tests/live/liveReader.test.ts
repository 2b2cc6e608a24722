import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import type { LiveReading } from "../../src/live/LiveReading.js";
import { liveReader } from "../../src/live/liveReader.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { NOTE_HZ, whiteNoise } from "../reading/bowedTake.js";
import { movedHz } from "../strings/handMadePassage.js";
import { between, bowed, hear, named, RATE, scene, soprano } from "./hearing.js";

const { G2, G3, D4 } = NOTE_HZ;

function codes({ findings }: LiveReading): string[] {
  return findings.map(({ code }) => code);
}

function expectNothing(readings: readonly LiveReading[]): void {
  expect(readings.length).toBeGreaterThanOrEqual(9);
  for (const { sound, strings, stray } of readings) {
    expect(sound).toBe("nothing");
    expect(stray).toBeNull();
    for (const { status } of strings) expect(status).toBe("not-heard");
  }
}

describe("where no string sounds", () => {
  it("digital silence gives nothing but the word that the microphone does", () => {
    const readings = hear([new Float32Array(5 * RATE)]);
    expectNothing(readings);
    for (const reading of readings) expect(reading.peakDb).toBeNull();
    const last = readings[readings.length - 1];
    expect(last.findings).toEqual([{ code: "too-quiet", severity: "problem", values: {} }]);
  });

  it.each([-90, -50, -20])("noise at %s dB gives nothing", (levelDb) => {
    expectNothing(hear([whiteNoise(5 * RATE, levelDb, 91 - levelDb)]));
  });

  it("without a tuning noise has no rows", () => {
    const readings = hear([whiteNoise(4 * RATE, -40, 92)], RATE, null);
    for (const { strings } of readings) expect(strings).toEqual([]);
  });

  it("mains hum is told, and is no string", () => {
    // 50 Hz and its multiples as a rectifier leaves them; 100 Hz lies 35 cents over G2.
    const samples = scene(9, [[4, bowed(movedHz(G2, 4), 4, 93)]], 93, -85);
    for (let i = 0; i < samples.length; i++) {
      const angle = (2 * Math.PI * 50 * i) / RATE;
      samples[i] += 0.01 * Math.sin(angle) + 0.02 * Math.sin(2 * angle) + 0.004 * Math.sin(4 * angle);
    }
    const readings = hear([samples]);
    for (const reading of between(readings, 2, 4)) {
      expect(reading.sound).toBe("nothing");
      expect(codes(reading)).toContain("mains-hum");
      expect(named(reading, "G2").status).toBe("not-heard");
    }
    for (const reading of between(readings, 5, 8)) {
      expect(Math.abs((named(reading, "G2").deviationCents ?? Number.NaN) - 4)).toBeLessThan(2);
    }
  });
});

describe("what the recording is like", () => {
  const string = scene(5, [[1, bowed(G3, 3.5, 94)]], 94);

  it("is told at once where it clips, and not before", () => {
    const loudFromSeconds = 2.6;
    const clipped = string.map((value, i) =>
      i < loudFromSeconds * RATE ? value : Math.max(-1, Math.min(1, 8 * value)),
    );
    for (const reading of hear([clipped])) {
      if (reading.seconds < loudFromSeconds) expect(codes(reading)).not.toContain("clipping");
      // A reading comes every half second.
      if (reading.seconds > loudFromSeconds + 0.5) expect(codes(reading)).toContain("clipping");
    }
  });

  it("is told where a string is too quiet, with its pitch", () => {
    // 60 dB down: the peak of this string is then near -70 dB, below the -40 that is asked for.
    const readings = hear([string.map((value) => value / 1000)]);
    for (const reading of between(readings, 2.5, 4.5)) {
      expect(codes(reading)).toContain("too-quiet");
      expect(named(reading, "G3").status).toBe("sounding");
    }
  });

  it("does not matter for the pitch: gain changes levels alone", () => {
    // A power of two scales every sample exactly, so that nothing but the level may differ.
    const plain = hear([string]);
    const quiet = hear([string.map((value) => value / 64)]);
    expect(quiet.length).toBe(plain.length);
    for (const [i, reading] of quiet.entries()) {
      expect(reading.sound).toBe(plain[i].sound);
      for (const [s, one] of reading.strings.entries()) {
        const { levelDb, ...rest } = one;
        const { levelDb: plainDb, ...plainRest } = plain[i].strings[s];
        expect(rest).toEqual(plainRest);
        if (plainDb !== null) expect(levelDb).toBeCloseTo(plainDb - 20 * Math.log10(64), 9);
      }
    }
  });

  it("leaves out values that can't be sound, and tells them", () => {
    const broken = string.slice();
    for (let i = 0; i < 40; i++) broken[Math.round(2.3 * RATE) + i] = i % 2 === 0 ? Number.NaN : 1e9;
    const readings = hear([broken]);
    for (const reading of between(readings, 3.5, 4.5)) {
      expect(codes(reading)).toContain("not-finite");
      expect(Math.abs(named(reading, "G3").deviationCents ?? Number.NaN)).toBeLessThan(2);
    }
    for (const { strings, peakDb } of readings) {
      for (const { frequencyHz } of strings) expect(Number.isNaN(frequencyHz)).toBe(false);
      expect(peakDb).toBeLessThan(0);
    }
  });
});

describe("blocks", () => {
  const samples = scene(
    6,
    [
      [0.6, bowed(movedHz(G2, -6), 2, 95)],
      [2.9, bowed(movedHz(D4, 8), 2.5, 96)],
    ],
    95,
  );
  const expected = hear([samples]);

  it("of any size give the same readings", () => {
    const sizes = fc.array(fc.oneof(fc.constant(128), fc.integer({ min: 0, max: 40_000 })), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(sizes, (given) => {
        fc.pre(given.some((size) => size > 100));
        const reader = liveReader({ sampleRateHz: RATE, channelCount: 1, targets: soprano, a4Hz: 440 });
        const readings: LiveReading[] = [];
        for (let at = 0, k = 0; at < samples.length; at += given[k % given.length], k++) {
          readings.push(...reader.push([samples.subarray(at, at + given[k % given.length])]));
        }
        expect(readings).toEqual(expected);
        expect(reader.reading()).toEqual(expected[expected.length - 1]);
      }),
      { numRuns: 12, seed: 9501 },
    );
  });

  it("are not changed, nor needed afterwards", () => {
    const reader = liveReader({ sampleRateHz: RATE, channelCount: 1, targets: soprano, a4Hz: 440 });
    const block = new Float32Array(1000);
    const readings: LiveReading[] = [];
    for (let at = 0; at + block.length <= samples.length; at += block.length) {
      block.set(samples.subarray(at, at + block.length));
      readings.push(...reader.push([block]));
      expect(block[999]).toBe(samples[at + 999]);
      block.fill(Number.NaN);
    }
    expect(readings).toEqual(expected);
  });

  it("before any of them nothing is heard", () => {
    const reader = liveReader({ sampleRateHz: 48_000, channelCount: 2, targets: soprano, a4Hz: 440 });
    expect(reader.push([new Float32Array(0), new Float32Array(0)])).toEqual([]);
    expect(reader.reading()).toMatchObject({ seconds: 0, sound: "nothing", peakDb: null, findings: [] });
    expect(reader.reading().strings.map(({ name }) => name)).toEqual(soprano.map(({ name }) => name));
  });
});

describe("rates and channels", () => {
  it.each([8000, 11_025, 44_100, 48_000, 96_000])("of %s Hz read alike", (sampleRateHz) => {
    const frequencyHz = movedHz(D4, -12);
    const partialAmplitudes = [0.2, 0.1, 0.07, 0.05, 0.04];
    const { samples } = bowedString({
      frequencyHz,
      durationSeconds: 3,
      sampleRateHz,
      seed: 97,
      partialAmplitudes,
      swingCents: 1,
    });
    const readings = hear([samples], sampleRateHz);
    for (const reading of between(readings, 1, 3)) {
      expect(Math.abs((named(reading, "D4").deviationCents ?? Number.NaN) + 12)).toBeLessThan(2);
    }
    // Levels are those of full-scale sines: the sum of squares of the amplitudes.
    const power = partialAmplitudes.reduce((sum, value) => sum + value * value, 0);
    const last = named(between(readings, 2.4, 2.9)[0], "D4");
    expect(last.levelDb).toBeCloseTo(10 * Math.log10(power), 1);
  });

  it("a string on one side of a stereo recording is heard, its level the mean of both", () => {
    const string = scene(4, [[0.5, bowed(movedHz(G3, 6), 3, 98)]], 98);
    const alone = hear([string]);
    const aside = hear([whiteNoise(string.length, -80, 99), string]);
    for (const reading of between(aside, 1.5, 3.4)) {
      expect(Math.abs((named(reading, "G3").deviationCents ?? Number.NaN) - 6)).toBeLessThan(2);
    }
    const level = (readings: readonly LiveReading[]) =>
      named(between(readings, 2.5, 3.4)[0], "G3").levelDb ?? Number.NaN;
    // Half the power; the noise adds a thousandth.
    expect(level(aside)).toBeCloseTo(level(alone) - 10 * Math.log10(2), 1);
  });
});

describe("refuses", () => {
  const given = { sampleRateHz: 48_000, channelCount: 1, targets: soprano, a4Hz: 440 };
  const codeOf = (call: () => unknown) => {
    try {
      call();
    } catch (error) {
      if (error instanceof AnalysisError) return error.code;
      throw error;
    }
    return null;
  };

  it("rates, channels and references that can't be", () => {
    for (const wrong of [
      { sampleRateHz: 7999 },
      { sampleRateHz: 48_000.5 },
      { channelCount: 0 },
      { channelCount: 33 },
      { a4Hz: 0 },
      { a4Hz: Number.NaN },
    ]) {
      expect(codeOf(() => liveReader({ ...given, ...wrong }))).toBe("value-out-of-range");
    }
  });

  it("blocks of other channels than promised, or of unequal length", () => {
    const block = new Float32Array(128);
    expect(codeOf(() => liveReader(given).push([]))).toBe("value-out-of-range");
    expect(codeOf(() => liveReader(given).push([block, block]))).toBe("value-out-of-range");
    const stereo = liveReader({ ...given, channelCount: 2 });
    expect(codeOf(() => stereo.push([block, new Float32Array(127)]))).toBe("value-out-of-range");
  });
});
