import { describe, expect, it } from "vitest";
import { demodulate } from "../../src/partials/demodulate.js";
import { frameGrid } from "../../src/partials/FrameGrid.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const RATE = 8000;

describe("demodulate", () => {
  it.each([
    [65.4064, 1],
    [65.4064, 44],
    [391.9954, 7],
    [1480, 2],
  ])(
    "at %d Hz with %i partials is the weighted sum of its definition, sample by sample",
    (frequencyHz, partials) => {
      const random = new SeededRandom(5);
      const samples = Float32Array.from({ length: 4000 }, () => random.normal(0.1));
      const segment = { samples, sampleRateHz: RATE, firstSeconds: 0.37 };
      // The first and last frames hang over the ends of the samples.
      const grid = frameGrid(0.372, 0.86, frequencyHz);
      const course = Float64Array.from({ length: grid.count }, (_, m) => 0.2 * Math.sin(0.3 * m));
      for (const cycles of [null, course]) {
        const frames = demodulate(segment, grid, frequencyHz, cycles, partials);
        for (const m of [0, 1, 7, grid.count - 2, grid.count - 1]) {
          const at = (index: number) => cycles?.[Math.min(grid.count - 1, Math.max(0, index))] ?? 0;
          for (const n of [1, partials]) {
            let real = 0;
            let imaginary = 0;
            let weights = 0;
            for (let i = 0; i < samples.length; i++) {
              const place = (0.37 + i / RATE - grid.firstSeconds) / grid.hopSeconds;
              if (place < m - 1 || place >= m + 1) continue;
              const weight = 0.5 + 0.5 * Math.cos(Math.PI * (place - m));
              const below = Math.floor(place);
              const ahead = at(below) + (place - below) * (at(below + 1) - at(below));
              const phase = 2 * Math.PI * n * (frequencyHz * place * grid.hopSeconds + ahead);
              real += weight * samples[i] * Math.cos(phase);
              imaginary -= weight * samples[i] * Math.sin(phase);
              weights += weight;
            }
            // A hundred or so values of 0.1 in double precision, the recursion's own rounding on top: under 1e-12.
            expect(Math.abs(frames.real[n - 1][m] - (2 * real) / weights)).toBeLessThan(1e-11);
            expect(Math.abs(frames.imaginary[n - 1][m] - (2 * imaginary) / weights)).toBeLessThan(1e-11);
          }
        }
      }
    },
  );

  it("gives 0 where there is no sound", () => {
    const segment = { samples: new Float32Array(100), sampleRateHz: RATE, firstSeconds: 5 };
    const frames = demodulate(segment, frameGrid(0, 1, 200), 200, null, 3);
    expect(frames.real.every((values) => values.every((value) => value === 0))).toBe(true);
  });
});
