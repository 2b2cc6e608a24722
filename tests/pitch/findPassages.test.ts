import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { findPassages } from "../../src/pitch/findPassages.js";
import type { PitchTrack } from "../../src/pitch/PitchTrack.js";
import type { SteadyPassage } from "../../src/pitch/SteadyPassage.js";
import { trackPitch } from "../../src/pitch/trackPitch.js";
import type { BowedStringOptions } from "../../src/synthesis/bowedString.js";
import { cents, shiftByCents } from "../../src/units/cents.js";
import { addNoise, toneOf } from "../synthesis/testTones.js";

const RATE = 8000;

type Note = Partial<BowedStringOptions> & { at: number; frequencyHz: number; durationSeconds: number };

function take(seconds: number, notes: readonly Note[], noise = 1e-4): PitchTrack {
  const samples = addNoise(new Float32Array(seconds * RATE), noise, 3);
  for (const note of notes) {
    const first = Math.round(note.at * RATE);
    const tone = toneOf(note).samples;
    for (let i = 0; i < tone.length; i++) samples[first + i] += tone[i];
  }
  return trackPitch(memoryRecording([samples], RATE));
}

/** A track made by hand: pitch by frame, 0 for pauses. */
function trackOf(frequencyHz: readonly number[]): PitchTrack {
  return {
    hopSeconds: 0.01,
    frequencyHz: Float32Array.from(frequencyHz),
    clarity: Float32Array.from(frequencyHz, (hz) => (hz > 0 ? 0.95 : 0.1)),
    levelDb: Float32Array.from(frequencyHz, (hz) => (hz > 0 ? -20 : -75)),
  };
}

const repeat = (hz: number, frames: number) => new Array<number>(frames).fill(hz);

function expectInside(passage: SteadyPassage, fromSeconds: number, toSeconds: number) {
  expect(passage.startSeconds).toBeGreaterThanOrEqual(fromSeconds);
  expect(passage.endSeconds).toBeLessThanOrEqual(toSeconds);
}

describe("findPassages on synthesised takes", () => {
  it("finds one passage a note, clear of attack and decay, and loses little of it", () => {
    const found = findPassages(
      take(9, [
        { at: 1, frequencyHz: 65.4064, durationSeconds: 3, attackSeconds: 0.4, releaseSeconds: 0.5 },
        { at: 5, frequencyHz: 391.9954, durationSeconds: 3, attackSeconds: 0.05, releaseSeconds: 0.3 },
      ]),
    );
    expect(found).toHaveLength(2);
    // A raised-cosine fade is 6 dB down in its middle, and 0.2 s at the start and 0.15 s at the end are cut besides: the
    // attack of 0.4 s is over by then, of the fade-out of 0.5 s the first 0.1 s (under 1 dB) may be left. One frame of
    // 128 ms blurs where the middle lies by up to half its length.
    expectInside(found[0], 1.3, 3.75);
    expectInside(found[1], 5.1, 7.85);
    expect(found[0].endSeconds - found[0].startSeconds).toBeGreaterThan(1.9);
    expect(found[1].endSeconds - found[1].startSeconds).toBeGreaterThan(2.2);
    // The note itself, to within half a frame and a threshold 45 dB down.
    expect(Math.abs(found[0].soundStartSeconds - 1)).toBeLessThan(0.3);
    expect(Math.abs(found[1].soundEndSeconds - 8)).toBeLessThan(0.3);
    // Median of frames each within 3 cents.
    expect(Math.abs(cents(found[0].frequencyHz, 65.4064))).toBeLessThan(1.5);
    expect(Math.abs(cents(found[1].frequencyHz, 391.9954))).toBeLessThan(1.5);
  });

  it.each([700, -700, 100, -100, 1200])(
    "two notes %i cents apart without a pause are two passages",
    (step) => {
      const second = shiftByCents(195.9977, step);
      const found = findPassages(
        take(7, [
          { at: 1, frequencyHz: 195.9977, durationSeconds: 2.5, releaseSeconds: 0.01 },
          { at: 3.5, frequencyHz: second, durationSeconds: 2.5, attackSeconds: 0.01 },
        ]),
      );
      expect(found).toHaveLength(2);
      // Neither takes a frame (half of 128 ms) of the other in.
      expectInside(found[0], 1, 3.5 - 0.064);
      expectInside(found[1], 3.5 + 0.064, 6);
      expect(Math.abs(cents(found[0].frequencyHz, 195.9977))).toBeLessThan(1.5);
      expect(Math.abs(cents(found[1].frequencyHz, second))).toBeLessThan(1.5);
    },
  );

  it.each([
    ["at 0.8 turns a second", 0.8],
    ["at 3 turns a second", 3],
  ])("a wheel swing of 3 cents %s does not split a note", (_name, swingRateHz) => {
    const found = findPassages(
      take(8, [
        {
          at: 1,
          frequencyHz: 97.9989,
          durationSeconds: 6,
          swingCents: 3,
          swingRateHz,
          jitterCents: 0.7,
          levelSwingDb: 2,
        },
      ]),
    );
    expect(found).toHaveLength(1);
    expect(found[0].endSeconds - found[0].startSeconds).toBeGreaterThan(5.3);
  });

  it("gives none for silence, for noise and for a knock", () => {
    expect(findPassages(take(4, [], 0))).toEqual([]);
    expect(findPassages(take(4, [], 0.05))).toEqual([]);
    const knock = {
      at: 2,
      frequencyHz: 150,
      durationSeconds: 0.3,
      attackSeconds: 0.005,
      releaseSeconds: 0.29,
    };
    expect(findPassages(take(4, [knock]))).toEqual([]);
  });

  it("reads a take that has no pause at all", () => {
    const found = findPassages(
      take(4, [{ at: 0, frequencyHz: 130.8128, durationSeconds: 4, attackSeconds: 0, releaseSeconds: 0 }]),
    );
    expect(found).toHaveLength(1);
    expectInside(found[0], 0, 4);
    expect(found[0].endSeconds - found[0].startSeconds).toBeGreaterThan(3.4);
  });

  it("finds a string 30 dB weaker than its neighbour", () => {
    const quiet = [1, 1 / 2, 1 / 3, 1 / 4].map((amplitude) => amplitude * 0.2 * 10 ** -1.5);
    const found = findPassages(
      take(7, [
        { at: 1, frequencyHz: 130.8128, durationSeconds: 2 },
        { at: 4, frequencyHz: 195.9977, durationSeconds: 2, partialAmplitudes: quiet },
      ]),
    );
    expect(found.map(({ frequencyHz }) => Math.round(frequencyHz))).toEqual([131, 196]);
  });

  it("cuts a very long note into equal parts of at most a minute", () => {
    const found = findPassages(trackOf([...repeat(0, 100), ...repeat(98, 15000), ...repeat(0, 100)]));
    expect(found).toHaveLength(3); // 150 s less the trimmed ends
    const lengths = found.map(({ startSeconds, endSeconds }) => endSeconds - startSeconds);
    for (const length of lengths) expect(length).toBeCloseTo(lengths[0], 9);
    for (const i of [1, 2]) expect(found[i].startSeconds).toBeCloseTo(found[i - 1].endSeconds, 9);
    expect(lengths[0]).toBeLessThanOrEqual(60);
  });
});

describe("findPassages on tracks made by hand", () => {
  const note = (hz: number, frames: number) => repeat(hz, frames);
  const pause = repeat(0, 60);

  it.each([
    ["up", 2],
    ["down", 0.5],
  ])("a slip of an octave %s, of 3 frames, does not split", (_name, ratio) => {
    const found = findPassages(
      trackOf([...pause, ...note(196, 120), ...note(196 * ratio, 3), ...note(196, 120), ...pause]),
    );
    expect(found).toHaveLength(1);
    expect(found[0].frequencyHz).toBeCloseTo(196, 4); // float32
    expect(found[0].endSeconds - found[0].startSeconds).toBeGreaterThan(1.9);
  });

  it("a hiccup of 50 ms is no pause, nor one of 120 ms; half a second is", () => {
    const withGap = (frames: number) =>
      findPassages(trackOf([...pause, ...note(98, 150), ...repeat(0, frames), ...note(98, 150), ...pause]));
    expect(withGap(5)).toHaveLength(1);
    expect(withGap(12)).toHaveLength(1);
    expect(withGap(50)).toHaveLength(2);
  });

  it("after a short hiccup another note is another passage", () => {
    const found = findPassages(
      trackOf([...pause, ...note(98, 150), ...repeat(0, 12), ...note(shiftByCents(98, 60), 150), ...pause]),
    );
    expect(found).toHaveLength(2);
  });

  it("a slow drift of 30 cents in ten seconds stays one note", () => {
    const glide = Array.from({ length: 1000 }, (_, i) => shiftByCents(98, (30 * i) / 1000));
    const found = findPassages(trackOf([...pause, ...glide, ...pause]));
    expect(found).toHaveLength(1);
  });

  it("passages lie in order, inside the take, inside their sound, never overlap, and are long enough", () => {
    const parts = fc.array(
      fc.record({
        hz: fc.constantFrom(0, 65.4, 98, 130.8, 131.5, 196, 392),
        frames: fc.integer({ min: 1, max: 200 }),
      }),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(parts, (list) => {
        const frames = list.flatMap(({ hz, frames: count }) => repeat(hz, count));
        const found = findPassages(trackOf(frames));
        let previousEnd = 0;
        for (const passage of found) {
          expect(passage.startSeconds).toBeGreaterThanOrEqual(previousEnd);
          expect(passage.endSeconds - passage.startSeconds).toBeGreaterThanOrEqual(0.35);
          expectInside(passage, passage.soundStartSeconds, passage.soundEndSeconds);
          expect(passage.endSeconds).toBeLessThanOrEqual(frames.length * 0.01);
          previousEnd = passage.endSeconds;
          // Its pitch is one that was played: 130.8 and 131.5 Hz lie 9 cents apart and may be one passage.
          expect(list.some(({ hz }) => hz > 0 && Math.abs(cents(passage.frequencyHz, hz)) < 10)).toBe(true);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("an empty track has none", () => {
    expect(findPassages(trackOf([]))).toEqual([]);
  });
});
