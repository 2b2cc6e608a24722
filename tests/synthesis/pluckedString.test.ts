import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { addPluck, stiffStringTones } from "../../src/synthesis/pluckedString.js";

const string = {
  frequencyHz: 200,
  inharmonicity: 1e-3,
  decaySeconds: 2,
  pluckedAt: 0.5,
  amplitude: 1,
  dampingRise: 0.5,
};

describe("stiffStringTones", () => {
  const tones = stiffStringTones(string, new SeededRandom(3));

  it("follows f_n = n f0 sqrt(1 + B n^2), f1 being what was asked for", () => {
    expect(tones[0]!.frequencyHz).toBeCloseTo(200, 9);
    // 3 x 200 sqrt(1.009 / 1.001), by hand.
    expect(tones[2]!.frequencyHz).toBeCloseTo(602.3928, 3);
  });

  it("has no even partials where it is plucked in the middle", () => {
    expect(Math.abs(tones[1]!.amplitude)).toBeLessThan(1e-12);
    expect(tones[2]!.amplitude).not.toBe(0);
  });

  it("falls by 60 dB in the time asked for, higher partials faster", () => {
    expect(Math.exp(-2 * tones[0]!.decayPerSecond)).toBeCloseTo(1e-3, 9);
    expect(tones[2]!.decayPerSecond / tones[0]!.decayPerSecond).toBeCloseTo(2, 9);
  });

  it("is two tones a partial about the same place with two polarisations", () => {
    const split = stiffStringTones({ ...string, splitHz: 0.4 }, new SeededRandom(3));
    expect((split[4]!.frequencyHz + split[5]!.frequencyHz) / 2).toBeCloseTo(602.3928, 3);
    expect(split[4]!.frequencyHz - split[5]!.frequencyHz).toBeCloseTo(1.2, 9);
  });
});

describe("addPluck", () => {
  it("is the decaying sine written out, the glide's phase included", () => {
    const rate = 48000;
    const samples = new Float32Array(rate);
    const tone = { frequencyHz: 300, decayPerSecond: 4, amplitude: 0.5, phase: 0.3 };
    addPluck(samples, rate, { startSeconds: 0.1, tones: [tone], glideCents: 10, glideDecayPerSecond: 8 });
    const rise = 2 ** (10 / 1200) - 1;
    for (const at of [0.15, 0.4, 0.9]) {
      const t = at - 0.1;
      const phase = 2 * Math.PI * 300 * (t + (rise * (1 - Math.exp(-8 * t))) / 8) + 0.3;
      // Blocks of constant frequency, 32-bit samples.
      expect(samples[Math.round(at * rate)]).toBeCloseTo(0.5 * Math.exp(-4 * t) * Math.sin(phase), 4);
    }
    expect(samples[Math.round(0.05 * rate)]).toBe(0);
  });
});
