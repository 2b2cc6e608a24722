import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demodulate } from "../../src/partials/demodulate.js";
import { frameGrid } from "../../src/partials/FrameGrid.js";
import { phaseCourse } from "../../src/partials/phaseCourse.js";
import { smoothCourse, smoothFrames } from "../../src/partials/smoothFrames.js";
import { steadyFrequency } from "../../src/partials/steadyFrequency.js";
import { steadySeries } from "../synthesis/testTones.js";

const RATE = 8000;
const segmentOf = (samples: Float32Array) => ({ samples, sampleRateHz: RATE, firstSeconds: 0 });

describe("frameGrid", () => {
  it("has hops of whole periods near 10 ms, and stays inside the passage", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 3000, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0.35, max: 60, noNaN: true }),
        (frequencyHz, start, length) => {
          const { firstSeconds, hopSeconds, count } = frameGrid(start, start + length, frequencyHz);
          const periods = hopSeconds * frequencyHz;
          expect(Math.abs(periods - Math.round(periods))).toBeLessThan(1e-9);
          // Nearest whole number of periods to 10 ms; never less than one.
          expect(Math.abs(hopSeconds - 0.01)).toBeLessThanOrEqual(
            Math.max(0.5 / frequencyHz, 1 / frequencyHz - 0.01) + 1e-12,
          );
          expect(firstSeconds).toBe(start);
          expect((count - 1) * hopSeconds).toBeLessThanOrEqual(length * (1 + 1e-9));
          expect(count * hopSeconds).toBeGreaterThan(length * (1 - 1e-9));
        },
      ),
    );
  });
});

describe("demodulate", () => {
  const frequencyHz = 100;
  const amplitudes = [0.2, 0.05, 0.1, 0.002];
  const phases = [0.3, 1.2, -2, 3];
  const samples = steadySeries(frequencyHz, amplitudes, phases, 2 * RATE, RATE);
  const grid = frameGrid(0.5, 1.5, frequencyHz);

  it("gives each partial's amplitude and phase, and nothing of its neighbours", () => {
    const { real, imaginary } = demodulate(segmentOf(samples), grid, frequencyHz, null, 6);
    for (let m = 0; m < grid.count; m++) {
      for (let n = 0; n < 6; n++) {
        // 0.5 s are 50 whole periods: phases are as they were at 0. The window's zeros fall on the neighbours where a
        // period is a whole number of samples: float32 rounding only.
        const amplitude = amplitudes[n] ?? 0;
        expect(Math.abs(real[n][m] - amplitude * Math.cos(phases[n] ?? 0))).toBeLessThan(1e-7);
        expect(Math.abs(imaginary[n][m] - amplitude * Math.sin(phases[n] ?? 0))).toBeLessThan(1e-7);
      }
    }
  });

  it("turns a partial that lies d Hz higher at n d cycles a second", () => {
    const higher = steadySeries(frequencyHz + 0.25, amplitudes, phases, 2 * RATE, RATE);
    const { real, imaginary } = demodulate(segmentOf(higher), grid, frequencyHz, null, 3);
    for (let n = 0; n < 3; n++) {
      const turn = Math.atan2(
        imaginary[n][50] * real[n][0] - real[n][50] * imaginary[n][0],
        real[n][50] * real[n][0] + imaginary[n][50] * imaginary[n][0],
      );
      const expected = 2 * Math.PI * (n + 1) * 0.25 * 0.5; // 50 hops of 10 ms
      // Leakage of the neighbours, which no longer fall on zeros: 1e-3 of them.
      expect(Math.abs(Math.cos(turn - expected) - 1)).toBeLessThan(1e-5);
    }
  });

  it("stands still along the course it is given", () => {
    const higher = steadySeries(frequencyHz + 0.25, amplitudes, phases, 2 * RATE, RATE);
    const course = Float64Array.from({ length: grid.count }, (_, m) => 0.25 * m * grid.hopSeconds);
    const { real, imaginary } = demodulate(segmentOf(higher), grid, frequencyHz, course, 3);
    // The ends, where the course is not known on one side, aside. Leakage of the neighbours, off the window's zeros by
    // 0.25 Hz in 100: measured 2e-3 of the weakest.
    for (let m = 2; m < grid.count - 2; m++) {
      for (let n = 0; n < 3; n++) {
        expect(Math.abs(Math.hypot(real[n][m], imaginary[n][m]) / amplitudes[n] - 1)).toBeLessThan(4e-3);
        expect(Math.abs(real[n][m] - real[n][2])).toBeLessThan(1e-3 * amplitudes[n]);
      }
    }
  });

  it("frames at the edge of the sound are scaled by what there is", () => {
    const edge = frameGrid(0, 1, frequencyHz);
    const { real, imaginary } = demodulate(segmentOf(samples), edge, frequencyHz, null, 1);
    // Half a frame no longer keeps the neighbours out: they reach 0.1 / 0.2 of the partial with half a window's side lobes.
    expect(Math.abs(Math.hypot(real[0][0], imaginary[0][0]) / 0.2 - 1)).toBeLessThan(0.5);
    expect(Math.abs(Math.hypot(real[0][1], imaginary[0][1]) / 0.2 - 1)).toBeLessThan(1e-6);
    const beyond = demodulate(segmentOf(samples), frameGrid(3, 3.5, frequencyHz), frequencyHz, null, 1);
    expect(beyond.real[0].every((value) => value === 0)).toBe(true); // past the end: nothing, not NaN
  });
});

describe("smoothFrames", () => {
  it.each([65.4, 196, 784])("has the noise bandwidth it says (%d Hz)", (frequencyHz) => {
    // The definition: rate * sum w^2 / (sum w)^2 over the samples' weights, which are read off impulse by impulse.
    const grid = frameGrid(0.05, 0.35, frequencyHz);
    const middle = grid.count >> 1;
    let sum = 0;
    let squares = 0;
    let noiseBandwidthHz = 0;
    for (let i = 0; i < 0.4 * RATE; i++) {
      const impulse = new Float32Array(0.4 * RATE);
      impulse[i] = 1;
      const smoothed = smoothFrames(demodulate(segmentOf(impulse), grid, frequencyHz, null, 1), grid);
      const weight = Math.hypot(smoothed.real[0][middle], smoothed.imaginary[0][middle]);
      sum += weight;
      squares += weight * weight;
      noiseBandwidthHz = smoothed.noiseBandwidthHz;
    }
    // Frames of 8 to 16 ms hold 60 to 130 samples: the sums are integrals to a thousandth.
    expect(noiseBandwidthHz / ((RATE * squares) / sum ** 2)).toBeCloseTo(1, 2);
    expect(noiseBandwidthHz).toBeLessThan(20);
  });

  it("leaves what stands still as it is, up to the ends", () => {
    const grid = frameGrid(0, 1, 100);
    const constant = new Float64Array(grid.count).fill(0.3);
    const { real, imaginary } = smoothFrames({ real: [constant], imaginary: [constant] }, grid);
    for (const value of [...real[0], ...imaginary[0]]) expect(value).toBeCloseTo(0.3, 12);
  });

  it("a straight course stays straight up to the ends", () => {
    const grid = frameGrid(0, 2, 100);
    const line = Float64Array.from({ length: grid.count }, (_, m) => 0.7 - 0.013 * m);
    const smoothed = smoothCourse(line, grid);
    for (let m = 0; m < grid.count; m++) expect(smoothed[m]).toBeCloseTo(line[m], 12);
  });
});

describe("phaseCourse", () => {
  const count = 200;
  const wave = Float64Array.from({ length: count }, (_, m) => 0.2 * Math.sin(m / 9));
  /** Frames of partials that follow n times a phase in cycles. */
  const frames = (
    phaseOf: (number: number, m: number) => number,
    amplitudeOf: (n: number, m: number) => number = () => 1,
  ) => {
    const make = (turn: (angle: number) => number) =>
      [1, 2, 3, 4].map((number) =>
        Float64Array.from(
          { length: count },
          (_, m) => amplitudeOf(number, m) * turn(2 * Math.PI * phaseOf(number, m)),
        ),
      );
    return { real: make(Math.cos), imaginary: make(Math.sin) };
  };
  const clear = [1e6, 1e6, 1e6, 1e6];
  const together = (number: number, m: number) => number * wave[m];

  it("finds the phase that all partials share", () => {
    const { cycles, weights } = phaseCourse(frames(together), clear)!;
    // But for a constant, which no frequency depends on.
    for (let m = 1; m < count; m++) expect(cycles[m] - cycles[0]).toBeCloseTo(wave[m] - wave[0], 10);
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
  });

  it("weighs near the noise as the Cramer-Rao bound does: by n^2 times signal-to-noise", () => {
    // Nielsen et al. 2017. At 20 to 40 the floor of the course (3e-4) takes 1 to 20 % off: tested as order and near ratio.
    const { weights } = phaseCourse(frames(together), [24, 24, 0, 0])!;
    expect(weights[1] / weights[0]).toBeCloseTo(4, 0);
    expect(weights[2]).toBe(0);
  });

  it("leaves out what goes its own way, what fades, and what is unknown", () => {
    const own = phaseCourse(
      frames((number, m) => (number === 3 ? Math.sin(m / 4) : number * wave[m])),
      clear,
    )!;
    expect(own.weights[2]).toBe(0);
    for (let m = 1; m < count; m++) expect(own.cycles[m] - own.cycles[0]).toBeCloseTo(wave[m] - wave[0], 6);
    const fading = phaseCourse(
      frames(together, (number, m) => (number === 2 && m === 90 ? 0.01 : 1)),
      clear,
    )!;
    expect(fading.weights[1]).toBe(0);
    const unknown = phaseCourse(frames(together), [1e6, 1e6, 1e6, null as unknown as number])!;
    expect(unknown.weights[3]).toBe(0);
  });

  it("gives null where there is nothing to follow", () => {
    expect(phaseCourse(frames(together), [1, 0, 0, 0])).toBeNull();
    expect(phaseCourse({ real: [], imaginary: [] }, [])).toBeNull();
  });
});

describe("steadyFrequency", () => {
  it("finds how far a series lies above the frequency it was demodulated at", () => {
    fc.assert(
      fc.property(fc.double({ min: -0.04, max: 0.04, noNaN: true }), (offsetHz) => {
        const grid = frameGrid(0, 2, 100);
        const turn = (number: number, m: number) =>
          2 * Math.PI * number * offsetHz * m * grid.hopSeconds + number;
        const make = (wave: (angle: number) => number) =>
          [1, 2, 3].map((n) => Float64Array.from({ length: grid.count }, (_, m) => wave(turn(n, m)) / n));
        const frames = { real: make(Math.cos), imaginary: make(Math.sin) };
        // Newton's method, four steps, without noise: exact to rounding.
        expect(Math.abs(steadyFrequency(frames, grid, [1, 1, 1], 0) - offsetHz)).toBeLessThan(1e-9);
        expect(Math.abs(steadyFrequency(frames, grid, [null, 1, null], 0) - offsetHz)).toBeLessThan(1e-9);
      }),
    );
  });

  it("stays where it starts when it has nothing to go by", () => {
    const grid = frameGrid(0, 1, 100);
    const nothing = { real: [new Float64Array(grid.count)], imaginary: [new Float64Array(grid.count)] };
    expect(steadyFrequency(nothing, grid, [1], 0.01)).toBe(0.01);
    expect(steadyFrequency(nothing, grid, [null], 0.01)).toBe(0.01);
  });
});
