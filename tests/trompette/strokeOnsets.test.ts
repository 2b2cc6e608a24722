import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readTrompette } from "../../src/trompette/readTrompette.js";
import type { BuzzKind } from "./buzzCarrier.js";
import { matchStrokes } from "./matchStrokes.js";
import { quietTake } from "./quietTake.js";
import { randomPlan } from "./randomTake.js";
import { trompetteTake } from "./trompetteTake.js";

/** No trial used these. */
const FIRST_SEED = 71_000;
const BAR_SECONDS = 0.01;

/** Onsets of some random takes of one kind against the generator's first knocks. */
function onsetsOf(kind: BuzzKind, takes: number, drones: boolean) {
  return Array.from({ length: takes }, (_, t) => FIRST_SEED + t).flatMap((seed) => {
    const plan = randomPlan(new SeededRandom(seed), seed, { kind, drones });
    const truth = trompetteTake(plan);
    const reading = readTrompette(memoryRecording([truth.samples], truth.sampleRateHz), {
      string: { name: "T", frequencyHz: plan.frequencyHz },
      others: (plan.drones ?? []).map(({ frequencyHz }, d) => ({ name: `D${d}`, frequencyHz })),
    });
    return matchStrokes(truth.onsetSeconds, reading.strokes).errors.map(({ seconds, stroke, index }) => ({
      error: Math.abs(seconds),
      within: stroke.withinSeconds,
      isRough: stroke.isRough,
      isStrong: truth.strengthDb[index] > -10,
    }));
  });
}

describe("onsets of a small sample of random takes", () => {
  for (const [kind, drones] of [
    ["each-period", false],
    ["second-period", true],
    ["noise", false],
  ] as const) {
    it(`${kind}${drones ? " over drones" : ""}: within 10 ms down to 10 dB under the tone, and within what is stated`, () => {
      const onsets = onsetsOf(kind, 4, drones);
      expect(onsets.length).toBeGreaterThan(30);
      for (const { error, isStrong } of onsets) if (isStrong) expect(error).toBeLessThan(BAR_SECONDS);
      // What is stated holds in 95 of 100; of 30 or more, 10 % would be three standard deviations or more off.
      const beyond = onsets.filter(({ error, within }) => error > within).length;
      expect(beyond / onsets.length).toBeLessThan(0.1);
    });
  }

  for (const drones of [false, true]) {
    it(`irregular${drones ? " over drones" : ""}: the first knock within 10 ms, or it is said that it is not known so well`, () => {
      const onsets = onsetsOf("irregular", 5, drones);
      expect(onsets.length).toBeGreaterThan(30);
      // The bar, for a buzz of any strength.
      for (const { error, within } of onsets)
        if (within <= BAR_SECONDS) expect(error).toBeLessThan(BAR_SECONDS);
      // A faint take is told as a whole, 6 of 100 in trials; two of five would be 40 %.
      expect(onsets.filter(({ within }) => within > BAR_SECONDS).length / onsets.length).toBeLessThan(0.35);
      // What is stated holds in 95 of 100; of 40, 15 % would be three standard deviations off.
      expect(onsets.filter(({ error, within }) => error > within).length / onsets.length).toBeLessThan(0.15);
      expect(onsets.some(({ isRough }) => isRough)).toBe(true);
    });
  }
});

it("takes few sudden sounds among many notes for no strokes, and lists them as such", () => {
  const readings = [0, 1, 2, 3].map((t) => {
    const { take, plan } = quietTake("melody", FIRST_SEED + t);
    const recording = memoryRecording([take.samples], take.sampleRateHz);
    return readTrompette(recording, { string: { name: "T", frequencyHz: plan.frequencyHz } });
  });
  for (const { state, strokes } of readings) {
    expect(strokes).toEqual([]);
    expect(["none", "unclear"]).toContain(state);
  }
  const told = readings.filter(({ state, otherSounds }) => {
    return state === "none" && otherSounds.some(({ reason }) => reason === "alone");
  });
  expect(told.length).toBeGreaterThan(0);
});
