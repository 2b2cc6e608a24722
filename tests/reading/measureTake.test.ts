import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { cents } from "../../src/units/cents.js";
import { movedHz } from "../strings/handMadePassage.js";
import {
  bowedTake,
  codesOf,
  NOTE_HZ,
  realisedHz,
  recordingOf,
  seriousFindings,
  stringNamed,
} from "./bowedTake.js";

const RATE = { sampleRateHz: 8000 };
const { C2, G2, C3, C4, G3, G4 } = NOTE_HZ;
const soprano = stringTargets(findTuning("soprano"));
const altoThree = stringTargets(findTuning("alto-three"));
const asNotes = { targets: null, a4Hz: 440 };

function errorOf(channels: Float32Array[]): AnalysisError {
  try {
    measureTake(memoryRecording(channels, 8000), asNotes);
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    throw error;
  }
  throw new Error("was read");
}

describe("measureTake refuses", () => {
  it("a recording without samples", () => {
    expect(errorOf([new Float32Array(0)])).toMatchObject({
      code: "recording-empty",
      details: { durationSeconds: 0 },
    });
  });

  it("digital silence, however long and in however many channels", () => {
    for (const length of [1, 800, 24_000]) {
      const error = errorOf([new Float32Array(length), new Float32Array(length)]);
      expect(error).toMatchObject({
        code: "recording-silent",
        details: { durationSeconds: length / 8000 },
      });
    }
  });

  it("a constant, which is silence with an offset", () => {
    expect(errorOf([new Float32Array(16_000).fill(0.25)]).code).toBe("recording-silent");
  });

  it("nothing but values that are no numbers", () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const error = errorOf([new Float32Array(8000).fill(value)]);
      expect(error).toMatchObject({ code: "recording-not-finite", details: { nonFiniteCount: 8000 } });
    }
  });
});

describe("measureTake with targets", () => {
  const notes = [G4, movedHz(G4, 9), C3, G2].map((frequencyHz) => ({ frequencyHz }));
  const take = bowedTake(notes, { ...RATE, seed: 3 });
  const reading = measureTake(recordingOf(take), { targets: soprano, a4Hz: 440 });

  it("has one reading a string, in the order of the instrument", () => {
    expect(reading.strings.map(({ name }) => name)).toEqual(soprano.map(({ name }) => name));
    expect(reading.strings.map(({ status }) => status)).toEqual([
      "measured",
      "measured",
      "not-heard",
      "not-heard",
      "not-heard",
      "not-heard",
      "measured",
      "measured",
    ]);
  });

  it("has null for everything that a string not heard has not, and never 0", () => {
    const silent = reading.strings.filter(({ status }) => status === "not-heard");
    expect(silent).toHaveLength(4);
    for (const { name, role, targetHz, status, partials, perPassage, findings, ...values } of silent) {
      expect([name, role, status].every((text) => typeof text === "string")).toBe(true);
      expect(targetHz).toBeGreaterThan(0);
      expect([partials, perPassage, findings]).toEqual([[], [], []]);
      expect(Object.values(values).every((value) => value === null)).toBe(true);
    }
  });

  it("gives the passages in order of time with the string that sounds in each", () => {
    expect(reading.passages.map(({ strings }) => strings)).toEqual([["G4"], ["G4 2"], ["C3"], ["G2"]]);
    for (const [i, { startSeconds, endSeconds }] of reading.passages.entries()) {
      const { startSeconds: from } = take.placed[i];
      // 5 s of sound; at least the attack and at most a second of edges is left out.
      expect(startSeconds).toBeGreaterThan(from + 0.1);
      expect(endSeconds).toBeLessThan(from + 5);
      expect(endSeconds - startSeconds).toBeGreaterThan(4);
    }
  });

  it("reads each pitch as it was in its passage", () => {
    for (const [i, name] of ["G4", "G4 2", "C3", "G2"].entries()) {
      const [passage] = stringNamed(reading, name).perPassage;
      // A tenth of a cent is what is asked of clean takes.
      expect(Math.abs(cents(passage.frequencyHz, realisedHz(take.placed[i], passage)))).toBeLessThan(0.1);
    }
  });

  it("takes equal strings in the order that was named", () => {
    const turned = measureTake(recordingOf(take), {
      targets: soprano,
      a4Hz: 440,
      order: ["G4 2", "G4"],
    });
    expect(stringNamed(turned, "G4 2").frequencyHz).toBe(stringNamed(reading, "G4").frequencyHz);
    expect(stringNamed(turned, "G4").frequencyHz).toBe(stringNamed(reading, "G4 2").frequencyHz);
  });

  it("gives the pairs among the strings heard", () => {
    expect(reading.pairs.map(({ lower, upper, ratio }) => `${lower} ${upper} ${ratio}`)).toEqual([
      "G2 C3 4:3",
      "G2 G4 4:1",
      "G2 G4 2 4:1",
      "C3 G4 3:1",
      "C3 G4 2 3:1",
      "G4 G4 2 1:1",
    ]);
  });

  it("says how far each string is from what they have in common", () => {
    for (const { deviationCents, ownErrorCents } of reading.strings) {
      if (deviationCents === null) expect(ownErrorCents).toBeNull();
      else expect(ownErrorCents).toBeCloseTo(deviationCents - reading.referencePitch!.offsetCents, 9);
    }
  });
});

describe("measureTake", () => {
  it("names notes without targets, the second of a kind with its number", () => {
    const frequencies = [movedHz(G4, 12), C4, movedHz(G4, -7), G4];
    const take = bowedTake(
      frequencies.map((frequencyHz) => ({ frequencyHz, durationSeconds: 3 })),
      { ...RATE, seed: 5 },
    );
    const reading = measureTake(recordingOf(take), asNotes);
    expect(reading.strings.map(({ name }) => name)).toEqual(["G4", "C4", "G4 2", "G4 3"]);
    expect(reading.strings.every(({ role }) => role === null)).toBe(true);
    // Underlying pitch against the mean of 3 s: 0.4 cents with a memory of 50 ms leave 0.07, swing up to 0.1.
    expect(Math.abs(reading.strings[0].deviationCents! - 12)).toBeLessThan(0.4);
    expect(Math.abs(reading.strings[2].deviationCents! + 7)).toBeLessThan(0.4);
  });

  it("gives the reference pitch that the strings agree on", () => {
    // All strings 8 cents sharp of A4 = 440: they agree on 440 * 2^(8/1200) = 442.0380 Hz.
    const frequencies = [C2, G2, C3, G3, G4].map((hz) => movedHz(hz, 8));
    const take = bowedTake(
      frequencies.map((frequencyHz) => ({ frequencyHz, durationSeconds: 3 })),
      { ...RATE, seed: 6 },
    );
    const { referencePitch } = measureTake(recordingOf(take), { targets: altoThree, a4Hz: 440 });
    // 0.3 cents of chance in 3 s of each: 0.08 Hz.
    expect(Math.abs(referencePitch!.a4Hz - 442.038)).toBeLessThan(0.08);
    expect(Math.abs(referencePitch!.offsetCents - 8)).toBeLessThan(0.3);
    const [lower, upper] = referencePitch!.interval95Cents!;
    expect(lower).toBeLessThan(referencePitch!.offsetCents);
    expect(upper).toBeGreaterThan(referencePitch!.offsetCents);
  });

  it("tells its progress from 0 to 1 without going back", () => {
    const take = bowedTake(
      [C3, G3, G4].map((frequencyHz) => ({ frequencyHz, durationSeconds: 8 })),
      { sampleRateHz: 16_000, seed: 7 },
    );
    const shares: number[] = [];
    measureTake(recordingOf(take), { ...asNotes, onProgress: (share) => shares.push(share) });
    expect(shares.length).toBeGreaterThan(5);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect(shares[0]).toBeGreaterThanOrEqual(0);
    expect(shares.at(-1)).toBeCloseTo(1, 12);
  });

  it("reads no passage that has values in it that are no sound, and says so", () => {
    const take = bowedTake([{ frequencyHz: C3 }, { frequencyHz: G3 }], { ...RATE, seed: 8 });
    take.samples[Math.round(3.5 * 8000)] = Number.NaN;
    take.samples[Math.round(3.5 * 8000) + 1] = Number.POSITIVE_INFINITY;
    const reading = measureTake(recordingOf(take), { targets: altoThree, a4Hz: 440 });
    expect(stringNamed(reading, "C3").status).toBe("not-heard");
    expect(codesOf(reading.findings)).toEqual(expect.arrayContaining(["not-finite", "unread-stretch"]));
    expect(reading.findings.find(({ code }) => code === "not-finite")?.values).toMatchObject({
      count: 2,
      firstSeconds: 3.5,
    });
    const [passage] = stringNamed(reading, "G3").perPassage;
    expect(Math.abs(cents(passage.frequencyHz, realisedHz(take.placed[1], passage)))).toBeLessThan(0.1);
  });

  it("does not read a string's mean power off its length", () => {
    const strings = [C2, G2, C3].map((frequencyHz) => ({ frequencyHz, durationSeconds: 4, levelSwingDb: 0 }));
    const even = bowedTake(strings, { ...RATE, seed: 9 });
    const uneven = bowedTake([{ ...strings[0], durationSeconds: 8 }, ...strings.slice(1)], {
      ...RATE,
      seed: 9,
    });
    const registers = [even, uneven].map(
      (take) => measureTake(recordingOf(take), { targets: altoThree, a4Hz: 440 }).lowRegister,
    );
    // Weighed with length the low drone's share would rise by more than half a decibel.
    expect(Math.abs(registers[1]!.lowRegisterDb! - registers[0]!.lowRegisterDb!)).toBeLessThan(0.02);
  });

  it("adds the passages of takes that are strung together", () => {
    const first = bowedTake(
      [C2, G3].map((frequencyHz) => ({ frequencyHz, durationSeconds: 3.5 })),
      { ...RATE, seed: 10 },
    );
    const second = bowedTake(
      [G3, G4, C2].map((frequencyHz) => ({ frequencyHz, durationSeconds: 3.5 })),
      { ...RATE, seed: 11 },
    );
    const options = { targets: altoThree, a4Hz: 440 };
    const parts = [first, second].map((take) => measureTake(recordingOf(take), options));
    const samples = new Float32Array(first.samples.length + second.samples.length);
    samples.set(first.samples);
    samples.set(second.samples, first.samples.length);
    const whole = measureTake(memoryRecording([samples], 8000), options);
    expect(whole.passages.map(({ strings }) => strings)).toEqual([
      ...parts[0].passages.map(({ strings }) => strings),
      ...parts[1].passages.map(({ strings }) => strings),
    ]);
    for (const [s, string] of whole.strings.entries()) {
      const apart = parts.flatMap(({ strings }) => strings[s].perPassage);
      expect(string.perPassage).toHaveLength(apart.length);
      for (const [p, passage] of string.perPassage.entries()) {
        // The level that counts as quiet is that of the whole take, so edges may move by a frame of 10 ms.
        expect(Math.abs(cents(passage.frequencyHz, apart[p].frequencyHz))).toBeLessThan(0.02);
      }
    }
    expect(codesOf(seriousFindings(whole))).toEqual([]);
  });
});
