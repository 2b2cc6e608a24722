import { describe, expect, it } from "vitest";
import { type BowedStringOptions, bowedString } from "../../src/synthesis/bowedString.js";

const RATE = 8000;
const plain: BowedStringOptions = {
  frequencyHz: 100,
  durationSeconds: 4,
  sampleRateHz: RATE,
  seed: 5,
  partialAmplitudes: [0.2],
  swingRateHz: 1.5,
};

describe("bowedString at the wheel", () => {
  it("tells the turns gone through", () => {
    const { turns } = bowedString(plain);
    // 1.5 turns a second for 3 s.
    expect(turns[3.5 * RATE] - turns[0.5 * RATE]).toBeCloseTo(4.5, 6);
  });

  it("gives strings with one wheel the same turns, and others not", () => {
    const course = (seed: number, wheelSeed?: number) =>
      bowedString({
        ...plain,
        seed,
        swingRateSpread: 0.05,
        ...(wheelSeed !== undefined && { wheelSeed }),
      }).turns;
    expect(course(1, 9)).toEqual(course(2, 9));
    expect(course(1, 9)).not.toEqual(course(1, 10));
    expect(course(1)).not.toEqual(course(2));
  });

  it("brings the level round as asked, later by the angle of contact", () => {
    const { turns, levelDb } = bowedString({
      ...plain,
      levelSwingDb: 1,
      contactDegrees: 90,
      levelHarmonics: [{ number: 2, amount: 0.5, degrees: 30 }],
    });
    for (const i of [0, 1234, 20_000]) {
      const angle = 2 * Math.PI * turns[i] - Math.PI / 2;
      const asked = Math.cos(angle) + 0.5 * Math.cos(2 * (angle - Math.PI / 6));
      // The phase is kept in single precision: 2e-7 radians.
      expect(levelDb![i]).toBeCloseTo(asked, 5);
    }
  });

  it("moves the level at random with the deviation asked for, and not the pitch with it", () => {
    const options = { ...plain, durationSeconds: 40, levelJitterDb: 0.4, levelJitterSeconds: 0.05 };
    const { levelDb, pitch } = bowedString(options);
    const mean = levelDb!.reduce((sum, value) => sum + value, 0) / levelDb!.length;
    const variance = levelDb!.reduce((sum, value) => sum + (value - mean) ** 2, 0) / levelDb!.length;
    // 40 s of 0.05 s hold 400 values that are as good as independent: 3.5 % of the deviation; four of them.
    expect(Math.abs(Math.sqrt(variance) / 0.4 - 1)).toBeLessThan(0.15);
    const { levelDb: none, pitch: without } = bowedString({ ...options, levelJitterDb: 0 });
    expect(none).toBeNull();
    expect(pitch.meanHz(1, 2)).toBe(without.meanHz(1, 2));
  });
});
