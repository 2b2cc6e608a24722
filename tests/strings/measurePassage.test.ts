import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import type { MeasuredPassage } from "../../src/strings/MeasuredPassage.js";
import { measurePassage } from "../../src/strings/measurePassage.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { cents } from "../../src/units/cents.js";
import { addAt, NOTE_HZ, whiteNoise } from "../reading/bowedTake.js";

const RATE_HZ = 8000;
const SECONDS = 5;
const AMPLITUDES = Array.from({ length: 15 }, (_, n) => 0.1 / (n + 1));

function stringOn(frequencyHz: number, seed: number) {
  return bowedString({
    frequencyHz,
    durationSeconds: SECONDS,
    sampleRateHz: RATE_HZ,
    seed,
    partialAmplitudes: AMPLITUDES,
    swingCents: 1,
    swingRateSpread: 0.03,
    jitterCents: 0.3,
  });
}

/** The sound times a gain, in noise of its own. */
function channel(samples: Float32Array, gain: number, noiseDb: number, seed: number): Float32Array {
  const mixed = samples.map((value) => gain * value);
  addAt(mixed, whiteNoise(mixed.length, noiseDb, seed), 0);
  return mixed;
}

const passage = {
  startSeconds: 0.4,
  endSeconds: 4.6,
  soundStartSeconds: 0.1,
  soundEndSeconds: 4.9,
  frequencyHz: NOTE_HZ.G3 * 1.001,
};

function measured(channels: readonly Float32Array[], where = passage): MeasuredPassage {
  const recording = memoryRecording(channels, RATE_HZ);
  const found = measurePassage(recording, surveyRecording(recording), where, []);
  if (found === null || "togetherHz" in found) throw new Error("no single string");
  return found;
}

const powerOf = ({ partials }: MeasuredPassage) => partials.reduce((sum, { power }) => sum + power, 0);
const dB = (power: number) => 10 * Math.log10(power);

describe("measurePassage", () => {
  const truth = stringOn(NOTE_HZ.G3, 11);
  const trueHz = truth.pitch.meanHz(passage.startSeconds, passage.endSeconds);
  const trueDb = dB(AMPLITUDES.reduce((sum, amplitude) => sum + amplitude ** 2, 0));

  it("reads pitch and power of one channel", () => {
    const found = measured([channel(truth.samples, 1, -75, 1)]);
    expect(found.startSeconds).toBe(passage.startSeconds);
    expect(found.endSeconds).toBe(passage.endSeconds);
    // A tenth of what is asked of the whole path (0.15 cents): the tone is clean.
    expect(Math.abs(cents(found.frequencyHz, trueHz))).toBeLessThan(0.02);
    // 3 kHz of noise 57 dB below the tone: thousandths of a decibel, and the smoothing along the course.
    expect(Math.abs(dB(powerOf(found)) - trueDb)).toBeLessThan(0.05);
  });

  it("gives the power mean of the channels as the level", () => {
    // Second channel at half the amplitude: (1 + 1/4) / 2 = -2.04 dB.
    const found = measured([channel(truth.samples, 1, -80, 1), channel(truth.samples, 0.5, -80, 2)]);
    expect(Math.abs(dB(powerOf(found)) - (trueDb + dB(0.625)))).toBeLessThan(0.05);
    for (const { number, power } of found.partials) {
      const expected = dB(0.625 * AMPLITUDES[number - 1] ** 2);
      // The weakest partial, 42 dB under full scale, stands 46 dB above the noise of a frame.
      expect(Math.abs(dB(power) - expected)).toBeLessThan(0.1);
    }
  });

  it("does not let opposite polarity cancel", () => {
    const found = measured([channel(truth.samples, 1, -80, 1), channel(truth.samples, -1, -80, 2)]);
    expect(Math.abs(dB(powerOf(found)) - trueDb)).toBeLessThan(0.05);
    expect(Math.abs(cents(found.frequencyHz, trueHz))).toBeLessThan(0.02);
  });

  it("takes the pitch from the channel with the better signal-to-noise, whichever that is", () => {
    // The other channel is louder and noisier, and its string is 5 cents off, as an impossible mark of which was taken.
    const other = stringOn(NOTE_HZ.G3 * 2 ** (5 / 1200), 12);
    const clear = channel(truth.samples, 0.5, -90, 1);
    const noisy = channel(other.samples, 2, -30, 2);
    for (const channels of [
      [clear, noisy],
      [noisy, clear],
    ]) {
      expect(Math.abs(cents(measured(channels).frequencyHz, trueHz))).toBeLessThan(0.02);
    }
  });

  it("does not depend on the order of the channels", () => {
    const a = channel(truth.samples, 1, -70, 1);
    const b = channel(truth.samples, 0.6, -60, 2);
    const one = measured([a, b]);
    const two = measured([b, a]);
    expect(two.frequencyHz).toBeCloseTo(one.frequencyHz, 9);
    expect(dB(powerOf(two))).toBeCloseTo(dB(powerOf(one)), 9);
    expect(two.noisePower).toBeCloseTo(one.noisePower!, 12);
  });

  it("takes a silent channel for what it is: the level is halved, the pitch stays", () => {
    const found = measured([channel(truth.samples, 1, -80, 1), new Float32Array(truth.samples.length)]);
    expect(Math.abs(cents(found.frequencyHz, trueHz))).toBeLessThan(0.02);
    expect(Math.abs(dB(powerOf(found)) - (trueDb + dB(0.5)))).toBeLessThan(0.05);
  });

  it("measures the noise between the partials", () => {
    // White noise of -50 dB over 4 kHz; a full-scale sine, to which powers refer, has half the mean square of amplitude 1.
    // Between 44.7 Hz and half a partial above the fifteenth lie 2993 Hz of it.
    const found = measured([channel(truth.samples, 1, -50, 1)]);
    const bandHz = 15.5 * found.frequencyHz - 44.668;
    // 4.343 / sqrt(B T) with B some 2 kHz, T 4 s is 0.05 dB; the median and the guards cost more: 0.5 dB.
    expect(Math.abs(dB(found.noisePower!) - (-50 + dB((2 * bandHz) / 4000)))).toBeLessThan(0.5);
  });

  it.each([
    ["an octave too low", 0.5],
    ["an octave too high", 2],
    ["a twelfth too low", 1 / 3],
  ])("sets a start that is %s right", (_, factor) => {
    const found = measured([channel(truth.samples, 1, -75, 1)], {
      ...passage,
      frequencyHz: factor * NOTE_HZ.G3,
    });
    expect(Math.abs(cents(found.frequencyHz, trueHz))).toBeLessThan(0.02);
  });

  it("gives no pitch where two strings a fifth apart were taken for one an octave below", () => {
    const both = stringOn(NOTE_HZ.C3, 13).samples;
    addAt(both, truth.samples, 0);
    const recording = memoryRecording([channel(both, 1, -80, 3)], RATE_HZ);
    const found = measurePassage(
      recording,
      surveyRecording(recording),
      { ...passage, frequencyHz: NOTE_HZ.C3 / 2 },
      [],
    );
    if (found === null || !("togetherHz" in found)) throw new Error("taken for one string");
    const [lowerHz, upperHz] = found.togetherHz;
    // The start is the tempered C2, its double and treble within the 2 cents that a tempered fifth is narrow.
    expect(Math.abs(cents(lowerHz, NOTE_HZ.C3))).toBeLessThan(3);
    expect(Math.abs(cents(upperHz, NOTE_HZ.G3))).toBeLessThan(3);
  });

  it.each([
    // A major third above; the other G3 of a pair, 5 cents up; the octave, all of its lines on those of the first.
    ["between the partials", 1.26],
    ["of nearly the same pitch", 2 ** (5 / 1200)],
    ["an octave up", 2 * 2 ** (4 / 1200)],
  ])("says that another string stands %s in the other channel", (_, factor) => {
    const found = measured([
      channel(truth.samples, 1, -80, 1),
      channel(stringOn(factor * NOTE_HZ.G3, 14).samples, 0.7, -75, 2),
    ]);
    expect(found.findings.map(({ code }) => code)).toContain("several-strings");
    expect(Math.abs(cents(found.frequencyHz, trueHz))).toBeLessThan(0.02);
  });

  it.each([
    ["the same string", channel(truth.samples, 0.3, -70, 2)],
    ["hardly more than noise", channel(truth.samples, 0.05, -45, 2)],
    ["noise", whiteNoise(SECONDS * RATE_HZ, -35, 2)],
  ])("says nothing of a channel that holds %s", (_, other) => {
    expect(measured([channel(truth.samples, 1, -80, 1), other]).findings).toEqual([]);
  });

  it.each([31, 32, 33, 34])(
    "says nothing of a channel that holds the string as a lively room gives it back (%d)",
    (seed) => {
      // Reverberation of 0.5 s (60 dB), no direct sound: a room has notches that a swinging pitch runs through, and a
      // partial beside one of them moves in phase. Taken from the string with three times the swing.
      const strong = bowedString({
        frequencyHz: [NOTE_HZ.G2, NOTE_HZ.G3, NOTE_HZ.D4, NOTE_HZ.G4][seed % 4],
        durationSeconds: SECONDS,
        sampleRateHz: RATE_HZ,
        seed,
        partialAmplitudes: AMPLITUDES,
        swingCents: 3,
        jitterCents: 0.5,
      });
      const tail = whiteNoise(0.35 * RATE_HZ, 0, 40 + seed).map(
        (value, i) => 0.02 * value * 10 ** ((-3 * i) / (0.5 * RATE_HZ)),
      );
      const room = strong.samples.map((_, i) => {
        let sum = 0;
        for (let k = 0; k < Math.min(tail.length, i + 1); k++) sum += tail[k] * strong.samples[i - k];
        return sum;
      });
      const where = { ...passage, frequencyHz: strong.pitch.meanHz(0.4, 4.6) };
      expect(
        measured([channel(strong.samples, 1, -80, 1), channel(room, 1, -80, 2)], where).findings,
      ).toEqual([]);
    },
  );

  it("reads nothing out of noise", () => {
    const recording = memoryRecording([whiteNoise(SECONDS * RATE_HZ, -40, 9)], RATE_HZ);
    expect(measurePassage(recording, surveyRecording(recording), passage, [])).toBeNull();
  });
});
