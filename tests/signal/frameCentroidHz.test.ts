import { describe, expect, it } from "vitest";
import { frameCentroidHz } from "../../src/signal/frameCentroidHz.js";

const RATE = 8000;
const BIN_HZ = RATE / 2048;

function series(amplitudes: readonly number[], frequencyHz: number, length: number): Float32Array {
  return Float32Array.from({ length }, (_, i) =>
    amplitudes.reduce(
      (sum, amplitude, index) =>
        sum + amplitude * Math.sin((2 * Math.PI * (index + 1) * frequencyHz * i) / RATE + index * index),
      0,
    ),
  );
}

const onBin = 24 * BIN_HZ;
const oneOverN = Array.from({ length: 20 }, (_, index) => 0.1 / (index + 1));

describe("frameCentroidHz", () => {
  it("weights with amplitude: 5.559046 f0 for 20 partials at 1/n", () => {
    // Arithmetic: sum of n * 1/n over sum of 1/n = 20 / 3.597740. Weighted with power it would be 2.254.
    // On whole bins, a line of the Hann window is three bins, symmetric about it: no leakage. Float32 rounding.
    const found = frameCentroidHz(series(oneOverN, onBin, 16000), RATE);
    expect(found! / onBin).toBeCloseTo(5.559046, 3);
  });

  it("comes within 2 % between the bins", () => {
    // Side lobes of a line between bins fall by 18 dB an octave and reach further up than down, where the spectrum
    // ends at 0 Hz: a little too high, the more the lower the string; under 2 % at C2.
    for (const frequencyHz of [65.4064, 97.9989, 130.8128, 195.9977]) {
      const found = frameCentroidHz(series(oneOverN, frequencyHz, 16000), RATE)!;
      expect(found / frequencyHz / 5.559046).toBeGreaterThan(0.98);
      expect(found / frequencyHz / 5.559046).toBeLessThan(1.02);
    }
  });

  it("is the frequency of a lone sine", () => {
    expect(frameCentroidHz(series([0.3], 200 * BIN_HZ, 8000), RATE)! / BIN_HZ).toBeCloseTo(200, 3); // float32
  });

  it("does not depend on level, and reads the same at any sample rate the samples are declared to have", () => {
    const samples = series(oneOverN, onBin, 8000);
    const quiet = samples.map((value) => value * 1e-4);
    const found = frameCentroidHz(samples, RATE)!;
    expect(frameCentroidHz(quiet, RATE)! / found).toBeCloseTo(1, 5); // float32 rounding
    expect(frameCentroidHz(samples, 2 * RATE)! / found).toBeCloseTo(2, 9);
  });

  it("is the mean over frames spread through the samples: half one tone, half another", () => {
    const low = series([0.3], 100 * BIN_HZ, 40960);
    const high = series([0.3], 300 * BIN_HZ, 40960);
    const both = new Float32Array(81920);
    both.set(low);
    both.set(high, 40960);
    // 24 frames: 12 in each half but one may lie across the joint.
    const found = frameCentroidHz(both, RATE)! / BIN_HZ;
    expect(found).toBeGreaterThan(200 - 200 / 24);
    expect(found).toBeLessThan(200 + 200 / 24);
  });

  it("gives null for silence and for less than one frame", () => {
    expect(frameCentroidHz(new Float32Array(8000), RATE)).toBeNull();
    expect(frameCentroidHz(series([0.3], 440, 2047), RATE)).toBeNull();
    expect(frameCentroidHz(series([0.3], 440, 2048), RATE)).not.toBeNull();
  });
});
