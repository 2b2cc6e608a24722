import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { measureTake } from "../../src/reading/measureTake.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { movedHz } from "../strings/handMadePassage.js";
import { addAt, bowedTake, NOTE_HZ, type TakeNote, whiteNoise } from "./bowedTake.js";

/** What a reading must not depend on: gain, polarity, order of channels, silence before, sample rate. */
const CENTS = 0.02;
const DECIBELS = 0.1;
const BASE_RATE_HZ = 22_050;
const SEEDS = [61, 62];

/** Strings whose course is the same at every sample rate: swing, but nothing drawn at random sample by sample. */
function notesOf(seed: number): TakeNote[] {
  const random = new SeededRandom(seed);
  return [NOTE_HZ.G2, NOTE_HZ.C3, NOTE_HZ.D4].map((hz) => ({
    frequencyHz: movedHz(hz, random.uniform(-25, 25)),
    durationSeconds: 3,
    partialAmplitudes: Array.from(
      { length: Math.floor(3000 / hz) },
      (_, n) => (0.1 / (n + 1)) * random.uniform(0.5, 1.5),
    ),
    swingCents: random.uniform(0.5, 2),
    swingRateHz: random.uniform(0.9, 2),
    swingRateSpread: 0,
    jitterCents: 0,
  }));
}

function readAt(seed: number, sampleRateHz: number): TakeReading {
  const { samples } = bowedTake(notesOf(seed), { sampleRateHz, noiseDb: -75, seed });
  return read([samples], sampleRateHz);
}

function read(channels: readonly Float32Array[], sampleRateHz: number): TakeReading {
  return measureTake(memoryRecording(channels, sampleRateHz), { targets: null, a4Hz: 440 });
}

function expectSame(reading: TakeReading, base: TakeReading): void {
  expect(reading.strings.map(({ name }) => name)).toEqual(["G2", "C3", "D4"]);
  for (const [s, string] of reading.strings.entries()) {
    expect(Math.abs(string.deviationCents! - base.strings[s].deviationCents!)).toBeLessThan(CENTS);
    // D4 has no partial below 177.8 Hz.
    if (base.strings[s].lowRegisterDb === null) expect(string.lowRegisterDb).toBeNull();
    else expect(Math.abs(string.lowRegisterDb! - base.strings[s].lowRegisterDb!)).toBeLessThan(DECIBELS);
  }
  const registers = [reading, base].map(({ lowRegister }) => lowRegister!.lowRegisterDb!);
  expect(Math.abs(registers[0] - registers[1])).toBeLessThan(DECIBELS);
}

describe.each(SEEDS)("the reading of take %i", (seed) => {
  const { samples } = bowedTake(notesOf(seed), { sampleRateHz: BASE_RATE_HZ, noiseDb: -75, seed });
  const base = read([samples], BASE_RATE_HZ);

  it("does not depend on gain, and its levels follow it", () => {
    const quiet = read([samples.map((value) => 0.01 * value)], BASE_RATE_HZ);
    expectSame(quiet, base);
    for (const [s, { levelDb }] of quiet.strings.entries()) {
      // A hundredth is -40 dB; samples of single precision round by far less.
      expect(levelDb).toBeCloseTo(base.strings[s].levelDb! - 40, 2);
    }
  });

  it("does not depend on polarity", () => {
    expectSame(read([samples.map((value) => -value)], BASE_RATE_HZ), base);
  });

  it("does not depend on the order of the channels, and a channel twice is one", () => {
    const other = samples.map((value) => 0.4 * value);
    addAt(other, whiteNoise(other.length, -70, seed + 1), 0);
    const one = read([samples, other], BASE_RATE_HZ);
    const two = read([other, samples], BASE_RATE_HZ);
    expectSame(two, one);
    for (const [s, { levelDb }] of two.strings.entries())
      expect(levelDb).toBeCloseTo(one.strings[s].levelDb!, 6);
    expectSame(read([samples, samples], BASE_RATE_HZ), base);
  });

  it("does not depend on 3 s of silence before it, and its times move along", () => {
    const lead = 3 * BASE_RATE_HZ;
    const later = new Float32Array(lead + samples.length);
    later.set(samples, lead);
    const reading = read([later], BASE_RATE_HZ);
    expectSame(reading, base);
    for (const [p, { startSeconds }] of reading.passages.entries()) {
      // One frame of 10 ms: digital silence lowers the level from which on a string may sound.
      expect(Math.abs(startSeconds - 3 - base.passages[p].startSeconds)).toBeLessThan(0.0101);
    }
  });

  it("has the same mean pitches played backwards", () => {
    const backwards = read([samples.slice().reverse()], BASE_RATE_HZ);
    expect(backwards.strings.map(({ name }) => name).sort()).toEqual(["C3", "D4", "G2"]);
    for (const { name, deviationCents } of backwards.strings) {
      const same = base.strings.find((one) => one.name === name)!;
      // A passage lies 0.05 s later in time when played backwards, as it is trimmed by the frames before it: of a swing
      // of 2 cents at most that moves a mean over 2.5 s by 2 * 2 * 0.05 / 2.5 = 0.08 cent.
      expect(Math.abs(deviationCents! - same.deviationCents!)).toBeLessThan(0.08);
    }
  });

  it("has the passages of two takes where they are strung together", () => {
    const twice = new Float32Array(2 * samples.length);
    twice.set(samples);
    twice.set(samples, samples.length);
    const { passages } = read([twice], BASE_RATE_HZ);
    // Without a tuning the second of a note is a second string of it.
    const notes = passages.map(({ strings }) => strings.map((name) => name.replace(" 2", "")));
    expect(notes).toEqual([...base.passages, ...base.passages].map(({ strings }) => strings));
  });

  it.each([44_100, 48_000, 96_000])("does not depend on the sample rate: %i Hz", (rateHz) => {
    expectSame(readAt(seed, rateHz), base);
  });
});
