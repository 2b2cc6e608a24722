import { describe, expect, it } from "vitest";
import { findChanges } from "../../src/pitch/findChanges.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";

const RATE = 8000;

function sound(seconds: number, strings: readonly (readonly [hz: number, from: number, to: number])[]) {
  const samples = new Float32Array(seconds * RATE);
  for (const [s, [frequencyHz, from, to]] of strings.entries()) {
    const string = bowedString({
      frequencyHz,
      durationSeconds: to - from,
      sampleRateHz: RATE,
      seed: 60 + s,
      partialAmplitudes: bodyAmplitudes(frequencyHz, 40, 0.1, [], 100),
      swingCents: 2,
      jitterCents: 0.4,
      levelSwingDb: 1,
      attackSeconds: 0.02,
      releaseSeconds: 0.02,
    });
    for (let i = 0; i < string.samples.length; i++) samples[from * RATE + i] += string.samples[i];
  }
  return samples;
}

describe("findChanges", () => {
  it("finds where strings join and leave, within 0.4 s", () => {
    const samples = sound(20, [
      [65.5, 0, 20],
      [98.2, 6, 20],
      [392.6, 12, 20],
    ]);
    const found = findChanges(samples, RATE, 100);
    expect(found).toHaveLength(2);
    // Windows of 0.26 s in steps of 0.1 s.
    expect(Math.abs(found[0] - 106)).toBeLessThan(0.4);
    expect(Math.abs(found[1] - 112)).toBeLessThan(0.4);
  });

  it("finds an octave that joins, all of whose partials fall on those of the lower string", () => {
    const found = findChanges(
      sound(14, [
        [65.5, 0, 14],
        [131.3, 7, 14],
      ]),
      RATE,
      0,
    );
    expect(found.some((at) => Math.abs(at - 7) < 0.3)).toBe(true);
  });

  it.each([
    ["one string with wheel swing", [[98, 0, 14]]],
    [
      "a fifth",
      [
        [65.4, 0, 14],
        [98.2, 0, 14],
      ],
    ],
  ] as const)("finds none in %s that goes on", (_, strings) => {
    expect(findChanges(sound(14, strings), RATE, 0)).toEqual([]);
  });

  it("has nothing to say of less than two seconds", () => {
    expect(findChanges(sound(2, [[98, 0, 2]]), RATE, 0)).toEqual([]);
    expect(findChanges(new Float32Array(10), RATE, 0)).toEqual([]);
  });
});
