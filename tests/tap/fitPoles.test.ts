import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { totalOf } from "../../src/tap/findPoles.js";
import { fitPoles } from "../../src/tap/fitPoles.js";
import type { Pole } from "../../src/tap/Pole.js";

const RATE_HZ = 8000;

function ringing(
  poles: readonly (Pole & { amplitude: number })[],
  random: SeededRandom,
  noise: number,
  count = 4000,
) {
  const phases = poles.map(() => random.uniform(0, 2 * Math.PI));
  return Float64Array.from({ length: count }, (_, n) => {
    const t = n / RATE_HZ;
    const sound = poles.reduce(
      (sum, { frequencyHz, decay, amplitude }, k) =>
        sum + amplitude * Math.exp(-decay * t) * Math.cos(2 * Math.PI * frequencyHz * t + phases[k]!),
      0,
    );
    return sound + (noise > 0 ? random.normal(noise) : 0);
  });
}

describe("fitPoles", () => {
  it("finds neighbours 10 % apart exactly where there is no noise", () => {
    const random = new SeededRandom(880_011);
    const truth = [
      { frequencyHz: 180, decay: 40, amplitude: 1 },
      { frequencyHz: 198, decay: 20, amplitude: 0.3 },
      { frequencyHz: 217.8, decay: 60, amplitude: 0.7 },
    ];
    const data = { rateHz: RATE_HZ, windows: [0, 1, 2].map(() => ringing(truth, random, 0)) };
    const start = truth.map(({ frequencyHz, decay }, k) => ({
      frequencyHz: frequencyHz * (1 + 0.01 * (k - 1)),
      decay: 1.4 * decay,
    }));
    // Noise of variance 1 is what its stopping rule reckons with, so the sound is made strong against that.
    const loud = { ...data, windows: data.windows.map((window) => window.map((value) => 1e6 * value)) };
    const fit = fitPoles(start, loud, totalOf(loud));
    for (const [k, { frequencyHz, decay }] of truth.entries()) {
      // What remains is where a step no longer lowers the sum of squares: parts in 10^7 at 120 dB.
      expect(Math.abs(fit!.poles[k]!.frequencyHz / frequencyHz - 1)).toBeLessThan(1e-7);
      expect(Math.abs(fit!.poles[k]!.decay / decay - 1)).toBeLessThan(1e-5);
    }
  });

  it("stays at the Cramer-Rao bound of one damped sinusoid", () => {
    // Long observed, known start, amplitude and phase unknown: var(2 pi f) = var(decay) = 16 decay^3 s2 / (A^2 rate), from the Fisher
    // information of A exp(-d t) cos(w t + p), as in Yao & Pandit 1995 (IEEE Trans. Signal Processing 43, from memory).
    const random = new SeededRandom(880_012);
    const [decay, amplitude] = [50, 20];
    const bound = Math.sqrt((16 * decay ** 3) / (amplitude ** 2 * RATE_HZ));
    const errors = Array.from({ length: 200 }, () => {
      const data = {
        rateHz: RATE_HZ,
        windows: [ringing([{ frequencyHz: 300, decay, amplitude }], random, 1)],
      };
      const fit = fitPoles([{ frequencyHz: 303, decay: 80 }], data, totalOf(data));
      const [pole] = fit!.poles;
      return [2 * Math.PI * (pole!.frequencyHz - 300), pole!.decay - decay];
    });
    for (const k of [0, 1]) {
      const rms = Math.sqrt(errors.reduce((sum, error) => sum + error[k]! ** 2, 0) / errors.length);
      // The rms of 200 normal errors scatters by 5 %: three of these to either side.
      expect(rms / bound).toBeGreaterThan(0.85);
      expect(rms / bound).toBeLessThan(1.15);
    }
  });

  it("has the bound of its information in the closed form", () => {
    const random = new SeededRandom(880_013);
    const [decay, amplitude] = [50, 20];
    const data = { rateHz: RATE_HZ, windows: [ringing([{ frequencyHz: 300, decay, amplitude }], random, 0)] };
    const fit = fitPoles([{ frequencyHz: 300, decay }], data, totalOf(data));
    const variance = (RATE_HZ * RATE_HZ) / fit!.information[3]!;
    // The window ends at exp(-25), and the two terms of a real signal hardly interact at 300 Hz: parts in a hundred.
    expect(variance / ((16 * decay ** 3) / (amplitude ** 2 * RATE_HZ))).toBeCloseTo(1, 1);
  });
});
