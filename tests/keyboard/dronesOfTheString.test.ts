import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { keyLadder } from "../../src/keyboard/keyLadder.js";
import { readKeyboard } from "../../src/keyboard/readKeyboard.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import { randomScale } from "./scaleCases.js";
import { scaleTake } from "./scaleTake.js";

const [G2, C3, G3, C4, G4] = [97.9989, 130.8128, 195.9977, 261.6256, 391.9954];
const SOPRANO = [G2, C3, G3, C4];

interface Case {
  readonly what: string;
  readonly melodyHz: number;
  readonly sounding: readonly number[];
  readonly named: readonly number[];
  /** The C4 is a trompette whose dog barks so often. */
  readonly barksPerSecond?: number;
  readonly scales: number;
}

/** Drones of the melody string's own note, an octave from it, and all of an instrument's at once. */
const CASES: readonly Case[] = [
  { what: "G4 over the octave below", melodyHz: G4, sounding: [G3], named: SOPRANO, scales: 2 },
  { what: "G4 over a trompette of its own note", melodyHz: G4, sounding: [G4], named: [G3, G4], scales: 2 },
  { what: "G3 over a drone of its own note", melodyHz: G3, sounding: [G3], named: SOPRANO, scales: 2 },
  {
    what: "G4 over a barking trompette",
    melodyHz: G4,
    sounding: [C4],
    named: SOPRANO,
    barksPerSecond: 2.8,
    scales: 2,
  },
  { what: "G4 over two octaves", melodyHz: G4, sounding: [G3, G2], named: SOPRANO, scales: 1 },
  {
    what: "G4 over all of a soprano",
    melodyHz: G4,
    sounding: SOPRANO,
    named: SOPRANO,
    barksPerSecond: 2.8,
    scales: 1,
  },
];

/** One scale over four drones takes 5 s, more where the machine is busy. */
const LONGEST_MS = 90_000;

describe.each(CASES)("$what", ({ melodyHz, sounding, named, barksPerSecond, scales }) => {
  it("is read: all keys heard, the right ones, within 1.2 cents", { timeout: LONGEST_MS }, () => {
    const random = new SeededRandom(7_310_044);
    for (let t = 0; t < scales; t++) {
      const plan = randomScale(random, { drones: 0, melodyHz });
      const drones = sounding.map((hz) => ({
        frequencyHz: hz * 2 ** (random.uniform(-12, 12) / 1200),
        strength: 0.1 * 10 ** (random.uniform(-6, 4) / 20),
        ...(hz === C4 ? { buzzesPerSecond: barksPerSecond } : {}),
      }));
      const take = scaleTake({ ...plan, drones });
      const reading = readKeyboard(memoryRecording([take.samples], take.sampleRateHz), {
        string: "melody",
        openTargetHz: plan.targetHz,
        ladderCents: keyLadder("equal", 0, plan.keys),
        lengthMm: 345,
        drones: named.map((frequencyHz) => ({ name: frequencyHz.toFixed(0), frequencyHz })),
      });
      const played = new Set(take.notes.map(({ key }) => key).filter((key) => key > 0));
      expect(reading.keys.map(({ key }) => key)).toEqual([...played].sort((a, b) => a - b));
      for (const { key, frequencyHz, stretches } of reading.keys) {
        let [sum, seconds] = [0, 0];
        for (const { startSeconds, endSeconds } of stretches) {
          const middle = (startSeconds + endSeconds) / 2;
          const there = take.notes.find((note) => note.startSeconds <= middle && middle < note.endSeconds);
          expect(there?.key).toBe(key);
          const duration = endSeconds - startSeconds;
          sum += duration * cents(take.meanHz(startSeconds, endSeconds, false), plan.targetHz);
          seconds += duration;
        }
        expect(Math.abs(cents(frequencyHz, plan.targetHz) - sum / seconds)).toBeLessThan(1.2);
      }
    }
  });
});
