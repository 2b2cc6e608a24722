import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { AnalysisError } from "../../src/errors.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readTrompette } from "../../src/trompette/readTrompette.js";
import type { TrompetteOptions } from "../../src/trompette/TrompetteReading.js";
import { cents } from "../../src/units/cents.js";
import { matchStrokes } from "./matchStrokes.js";
import { type Stroke, type TrompettePlan, type TrompetteTake, trompetteTake } from "./trompetteTake.js";

/** Equal temperament at A4 = 440 Hz. */
const C4 = { name: "C4", frequencyHz: 261.6256 };

interface Row {
  readonly from: number;
  readonly every: number;
  readonly count: number;
  readonly share?: number;
  readonly strengthDb?: number;
}

function row({ from, every, count, share = 0.5, strengthDb = -4 }: Row, seed: number): Stroke[] {
  const random = new SeededRandom(seed);
  return Array.from({ length: count }, (_, k) => ({
    onsetSeconds: from + k * every + random.normal(0.003),
    durationSeconds: share * every,
    strengthDb: strengthDb + random.normal(0.7),
    attackSeconds: 0.01,
    releaseSeconds: 0.01,
  }));
}

function take(plan: Partial<TrompettePlan>): TrompetteTake {
  return trompetteTake({
    seed: 501,
    frequencyHz: 261.9,
    strokes: [],
    kind: "each-period",
    dropCents: 6,
    bowedSeconds: 8,
    noiseDb: -36,
    ...plan,
  });
}

function read({ samples, sampleRateHz }: TrompetteTake, options: Partial<TrompetteOptions> = {}) {
  return readTrompette(memoryRecording([samples], sampleRateHz), { string: C4, ...options });
}

describe("readTrompette", () => {
  for (const kind of ["each-period", "second-period", "noise"] as const) {
    it(`finds every stroke of a buzz that comes ${kind}`, () => {
      const strokes = row({ from: 4, every: 0.18, count: 20 }, 5);
      const truth = take({ kind, strokes, seed: 510 });
      const reading = read(truth);
      const { errors, missed, added } = matchStrokes(truth.onsetSeconds, reading.strokes);
      expect(reading.state).toBe("strokes");
      expect([missed, added]).toEqual([[], 0]);
      // The bar: onsets within 10 ms.
      for (const { seconds } of errors) expect(Math.abs(seconds)).toBeLessThan(0.01);
      // 1 / 0.18.
      expect(Math.abs(reading.strokesPerSecond! - 5.556)).toBeLessThan(0.05);
      expect(reading.findings.filter(({ severity }) => severity === "problem")).toEqual([]);
    });
  }

  it("gives strength, lengths, pitch and turns near to what they were", () => {
    const strokes = row({ from: 6.6, every: 0.18, count: 14 }, 6);
    const truth = take({
      strokes,
      seed: 520,
      bowedSeconds: 9,
      turnsPerSecond: 1.4,
      swingCents: 1.5,
      levelSwingDb: 1,
    });
    const reading = read(truth);
    const trueStrength = truth.strengthDb.reduce((sum, one) => sum + one, 0) / truth.strengthDb.length;
    // Knocks once a period lie on the string's own partials and add to them or take from them: 1.6 dB (one standard deviation) in trials,
    // the same for all strokes of a take; twice that.
    expect(Math.abs(reading.strengthDb!.mean - trueStrength)).toBeLessThan(3.2);
    // Frames of 15 ms, edges of 10 ms.
    expect(Math.abs(reading.durationMeanSeconds!.mean - 0.09)).toBeLessThan(0.015);
    // Silent pitch against its realised mean: 0.2 cent (one standard deviation) in trials; three of them.
    expect(Math.abs(cents(reading.silentPitch!.frequencyHz, truth.silentHz))).toBeLessThan(0.6);
    const { mean, interval95 } = reading.differenceCents!;
    // What of the wheel's swing keeps time with the strokes counts as theirs: a cent.
    expect(Math.abs(mean - truth.dropCents)).toBeLessThan(1.2);
    expect(interval95![1]).toBeLessThan(0);
    expect(reading.turnsBasis).toBe("silent-part");
    // The wheel reading's own bar is 1 %; the rate of this take wanders by 2 % between its parts.
    expect(Math.abs(reading.turnsPerSecond! / truth.turnsPerSecond - 1)).toBeLessThan(0.05);
    expect(Math.abs(reading.strokesPerTurn! - 1 / 0.18 / 1.4)).toBeLessThan(0.2);
  });

  it("takes turns that were counted, and says why there are none", () => {
    const truth = take({ strokes: row({ from: 3, every: 0.2, count: 20 }, 7), seed: 530, bowedSeconds: 7 });
    const without = read(truth);
    expect(without).toMatchObject({ turnsPerSecond: null, strokesPerTurn: null, turnRefusal: "no-silence" });
    expect(without.findings.map(({ code }) => code)).toContain("turns-unknown");
    const counted = read(truth, { turnsPerSecond: 1.25 });
    expect(counted.turnsBasis).toBe("counted");
    // 5 strokes a second over 1.25 turns.
    expect(Math.abs(counted.strokesPerTurn! - 4)).toBeLessThan(0.05);
  });

  it("tells a missed and a weak stroke", () => {
    const strokes = row({ from: 4, every: 0.2, count: 18 }, 8).flatMap((one, i) =>
      i === 6 ? [] : i === 11 ? [{ ...one, strengthDb: one.strengthDb - 9 }] : [one],
    );
    const reading = read(take({ strokes, seed: 540 }));
    expect(reading.missedSeconds).toEqual([expect.closeTo(5.2, 1)]);
    expect(reading.strokes.filter(({ isWeak }) => isWeak).map(({ onsetSeconds }) => onsetSeconds)).toEqual([
      expect.closeTo(6.2, 1),
    ]);
    expect(reading.findings.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["missed-strokes", "weak-strokes"]),
    );
  });

  it("says where nothing buzzes, and where it may buzz all the time", () => {
    const none = read(take({ seed: 550 }));
    expect(none).toMatchObject({ state: "none", strokes: [], strengthDb: null, strokesPerSecond: null });
    expect(none.findings.map(({ code }) => code)).toContain("no-buzz");
    const whole = {
      onsetSeconds: 0.5,
      durationSeconds: 9,
      strengthDb: 4,
      attackSeconds: 0.01,
      releaseSeconds: 0.01,
    };
    const always = read(take({ seed: 551, strokes: [whole] }));
    expect(always).toMatchObject({ state: "continuous", strokes: [] });
    expect(always.findings.map(({ code }) => code)).toContain("continuous-buzz");
  });

  it("does not take two sudden sounds for strokes", () => {
    const strokes = row({ from: 4, every: 1.3, count: 2, share: 0.07 }, 9);
    const reading = read(take({ seed: 560, strokes }));
    expect(reading).toMatchObject({ state: "unclear", doubt: "few", strokes: [] });
    expect(reading.possibleSeconds).toHaveLength(2);
  });

  it("reads strokes over another drone, and says that its pitch is covered where it is", () => {
    const strokes = row({ from: 4, every: 0.2, count: 16, strengthDb: 0 }, 10);
    const C3 = { name: "C3", frequencyHz: 130.8128 };
    const G3 = { name: "G3", frequencyHz: 195.9977 };
    const over = (other: typeof C3, seed: number) => {
      const truth = take({ seed, strokes, drones: [{ frequencyHz: other.frequencyHz, strength: 0.04 }] });
      const reading = read(truth, { others: [other] });
      expect(matchStrokes(truth.onsetSeconds, reading.strokes)).toMatchObject({ missed: [], added: 0 });
      expect(reading).toMatchObject({ sounding: [other.name], strengthAgainst: "all-strings" });
      return { reading, truth };
    };
    // All partials of C4 lie on those of C3.
    expect(over(C3, 570).reading).toMatchObject({ silentPitch: null, pitchRefusal: "shared-partials" });
    const { reading, truth } = over(G3, 571);
    // Partials 1, 2, 4 and 5 are free; as for the string alone.
    expect(Math.abs(cents(reading.silentPitch!.frequencyHz, truth.silentHz))).toBeLessThan(0.6);
    expect(Math.abs(reading.differenceCents!.mean - truth.dropCents)).toBeLessThan(2);
  });

  it("does not depend on gain, polarity or a second channel", () => {
    const truth = take({ seed: 580, strokes: row({ from: 4, every: 0.22, count: 12 }, 11) });
    const onsets = (channels: Float32Array[]) =>
      readTrompette(memoryRecording(channels, truth.sampleRateHz), { string: C4 }).strokes.map(
        ({ onsetSeconds }) => onsetSeconds,
      );
    const plain = onsets([truth.samples]);
    expect(plain).toHaveLength(12);
    const near = (others: readonly number[]) => {
      expect(others).toHaveLength(plain.length);
      // Frames are 2 ms apart.
      for (const [i, one] of others.entries()) expect(Math.abs(one - plain[i])).toBeLessThan(0.0021);
    };
    near(onsets([truth.samples.map((value) => -0.1 * value)]));
    near(onsets([truth.samples, truth.samples]));
  });

  it("refuses what is no take, and tells what spoils one", () => {
    const silent = () => readTrompette(memoryRecording([new Float32Array(16_000)], 16_000), { string: C4 });
    expect(silent).toThrow(AnalysisError);
    const truth = take({ seed: 590, strokes: row({ from: 4, every: 0.2, count: 12 }, 12) });
    expect(() => read(truth, { turnsPerSecond: 9 })).toThrow(AnalysisError);
    const short = truth.samples.subarray(0, Math.round(1.5 * truth.sampleRateHz));
    const reading = readTrompette(memoryRecording([short], truth.sampleRateHz), { string: C4 });
    expect(reading).toMatchObject({ soundingSeconds: 0, strokes: [], silentPitch: null });
    expect(reading.findings.map(({ code }) => code)).toContain("no-string");
    const clipped = truth.samples.map((value) => Math.max(-0.03, Math.min(0.03, value)));
    const codes = readTrompette(memoryRecording([clipped], truth.sampleRateHz), { string: C4 }).findings;
    expect(codes.map(({ code }) => code)).toContain("clipping");
    const dull = take({
      seed: 591,
      sampleRateHz: 8000,
      strokes: row({ from: 4, every: 0.2, count: 12 }, 13),
    });
    expect(read(dull).findings.map(({ code }) => code)).toContain("upper-band-missing");
  });
});
