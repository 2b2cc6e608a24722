import { describe, expect, it } from "vitest";
import { secondOpinionHz } from "../../src/pitch/secondOpinionHz.js";
import { cents } from "../../src/units/cents.js";
import { addNoise, noteCases, toneOf } from "../synthesis/testTones.js";

describe("secondOpinionHz", () => {
  // It serves the octave. Its package interpolates between whole lags: 14 cents off at G5 and 8 kHz, the worst here; a
  // quarter tone is far from every doubt about an octave (1200 cents) or a twelfth.
  const SAME_NOTE_CENTS = 50;

  it.each(noteCases)("agrees on the octave of %s, loud or 80 dB lower", (_note, frequencyHz) => {
    const { samples } = toneOf({ frequencyHz, durationSeconds: 2, swingCents: 2, jitterCents: 0.5 });
    addNoise(samples, 2e-3, 9);
    for (const gain of [1, 1e-4, -1]) {
      const found = secondOpinionHz(
        samples.map((value) => value * gain),
        8000,
      );
      expect(Math.abs(cents(found!, frequencyHz))).toBeLessThan(SAME_NOTE_CENTS);
    }
  });

  it.each(noteCases.slice(0, 4))(
    "agrees on %s with a fundamental 30 dB below the third partial",
    (_note, frequencyHz) => {
      const partialAmplitudes = Array.from({ length: 24 }, (_, n) =>
        n === 0 ? 0.2 / 3 / 31.6 : 0.2 / (n + 1),
      );
      const { samples } = toneOf({ frequencyHz, durationSeconds: 2, partialAmplitudes });
      expect(Math.abs(cents(secondOpinionHz(samples, 8000)!, frequencyHz))).toBeLessThan(SAME_NOTE_CENTS);
    },
  );

  it("gives null for silence, and for less than one frame", () => {
    expect(secondOpinionHz(new Float32Array(16000), 8000)).toBeNull();
    expect(secondOpinionHz(toneOf({ frequencyHz: 440, durationSeconds: 0.12 }).samples, 8000)).toBeNull();
    expect(secondOpinionHz(new Float32Array(0), 8000)).toBeNull();
  });

  it("goes by the middle of several frames: a gap does not spoil it", () => {
    const { samples } = toneOf({ frequencyHz: 196, durationSeconds: 2 });
    samples.fill(0, 5000, 8000);
    expect(Math.abs(cents(secondOpinionHz(samples, 8000)!, 196))).toBeLessThan(SAME_NOTE_CENTS);
  });
});
