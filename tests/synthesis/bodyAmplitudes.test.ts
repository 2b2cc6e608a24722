import { describe, expect, it } from "vitest";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";

const db = (ratio: number) => 20 * Math.log10(ratio);

describe("bodyAmplitudes", () => {
  it("without a box is the ideal bowed string: 0, -6.02, -9.54, -12.04, -13.98, -15.56 dB", () => {
    // Helmholtz motion: the force on the bridge is a sawtooth, partial n at 1/n (Cremer, The Physics of the Violin; from memory).
    const amplitudes = bodyAmplitudes(65.4, 6, 0.3);
    const expected = [0, -6.02, -9.54, -12.04, -13.98, -15.56];
    for (const [i, amplitude] of amplitudes.entries())
      expect(db(amplitude / 0.3)).toBeCloseTo(expected[i], 2);
  });

  it("a resonance adds its gain at its frequency and half of it (in dB) where it is detuned by 1 / Q", () => {
    const resonance = { frequencyHz: 300, q: 10, gainDb: 8 };
    const gainAt = (hz: number) => db(bodyAmplitudes(hz, 1, 1, [resonance])[0]);
    expect(gainAt(300)).toBeCloseTo(8, 10);
    // Q (f / f0 - f0 / f) = +-1 at f = f0 (sqrt(1 + 1 / 4 Q^2) +- 1 / 2 Q): by the definition of the bell.
    for (const sign of [-1, 1]) expect(gainAt(300 * (Math.sqrt(1 + 1 / 400) + sign / 20))).toBeCloseTo(4, 10);
    expect(gainAt(3000)).toBeLessThan(0.01);
    expect(db(bodyAmplitudes(300, 1, 1, [resonance, resonance])[0])).toBeCloseTo(16, 10);
  });

  it("below its lowest mode the box falls by 12 dB an octave, and is 3 dB down at it", () => {
    const gainAt = (hz: number) => db(bodyAmplitudes(hz, 1, 1, [], 100)[0]);
    expect(gainAt(100)).toBeCloseTo(-3.01, 2);
    expect(gainAt(12.5) - gainAt(6.25)).toBeCloseTo(12.04, 2); // 40 lg 2
    expect(gainAt(3000)).toBeCloseTo(0, 4);
  });
});
