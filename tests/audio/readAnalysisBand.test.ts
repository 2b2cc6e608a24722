import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { readAnalysisBand } from "../../src/audio/readAnalysisBand.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";

const RATE = 48000;
const tone = Float32Array.from(
  { length: RATE },
  (_, i) => 0.25 * Math.cos((2 * Math.PI * 440 * i) / RATE + 1),
);

function read(samples: Float32Array, startSeconds: number, endSeconds: number): Float32Array {
  const recording = memoryRecording([samples], RATE);
  return readAnalysisBand(recording, surveyRecording(recording), { startSeconds, endSeconds })[0];
}

describe("readAnalysisBand", () => {
  it.each([
    [0, 1],
    [0.2, 0.9],
    [0, 0.01],
    [0.995, 2],
  ])(
    "takes an offset off without a trace, from %d to %d s, the ends of the recording included",
    (from, to) => {
      const plain = read(tone, from, to);
      const shifted = read(
        tone.map((value) => value + 0.5),
        from,
        to,
      );
      expect(shifted.length).toBe(plain.length);
      expect(plain.length).toBe(Math.round((Math.min(1, to) - from) * 8000));
      for (let i = 0; i < plain.length; i++) {
        // Samples near 0.75 are rounded to 6e-8 in single precision, once or twice on the way.
        expect(Math.abs(shifted[i] - plain[i]), `sample ${i}`).toBeLessThan(3e-7);
      }
    },
  );

  it("puts sample k of a stretch on its place in the recording", () => {
    const middle = read(tone, 0.5, 0.6);
    for (let k = 0; k < middle.length; k++) {
      // Ripple of the filter, 3e-5 of the amplitude, and single precision.
      expect(Math.abs(middle[k] - 0.25 * Math.cos(2 * Math.PI * 440 * (0.5 + k / 8000) + 1))).toBeLessThan(
        2e-5,
      );
    }
  });

  it("takes values that can't be sound as the offset", () => {
    const broken = tone.map((value) => value + 0.5);
    broken[24_000] = Number.NaN;
    broken[24_001] = Number.POSITIVE_INFINITY;
    broken[24_002] = -5000;
    const found = read(broken, 0, 1);
    expect(found.every((value) => Number.isFinite(value) && Math.abs(value) < 0.8)).toBe(true);
  });
});
