import { describe, expect, it } from "vitest";
import { PlateauDetector } from "../../src/audio/PlateauDetector.js";
import { addNote, noise, quantised } from "./syntheticTake.js";

function detect(samples: Float32Array, pieceLength = samples.length) {
  const detector = new PlateauDetector();
  for (let start = 0; start < samples.length; start += pieceLength) {
    detector.add(samples.subarray(start, start + pieceLength), 1000);
  }
  return detector.finish();
}

/** A string whose peak would reach `peak`, cut at `limit`, and how often at least three samples in a row are cut. */
function cutString(rateHz: number, frequencyHz: number, peak: number, limit: number) {
  const samples = new Float64Array(2 * rateHz);
  addNote(samples, rateHz, {
    startSeconds: 0.1,
    endSeconds: 1.5,
    frequencyHz,
    amplitude: 1,
    decay60Seconds: 1,
  });
  const background = noise("white", samples.length, 1e-4, 3);
  const highest = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const open = samples.map((value, i) => (value * peak) / highest + background[i]);
  let truth = 0;
  let first = -1;
  let run = 0;
  for (let i = 0; i < open.length; i++) {
    const isSame = Math.abs(open[i]) >= limit && (run === 0 || open[i] * open[i - 1] > 0);
    run = isSame ? run + 1 : 0;
    if (run !== 3) continue;
    truth++;
    if (first < 0) first = i - 2;
  }
  return { samples: open.map((value) => Math.max(-limit, Math.min(limit, value))), truth, first };
}

describe("PlateauDetector", () => {
  for (const rateHz of [8000, 48000, 96000]) {
    for (const [peak, limit] of [
      [1.5, 1],
      [1.1, 1],
      [1.05, 0.7],
    ]) {
      it(`counts every cut top of a string at ${rateHz} Hz, peak ${peak} cut at ${limit}`, () => {
        const { samples, truth, first } = cutString(rateHz, 98, peak, limit);
        expect(truth).toBeGreaterThan(50);
        for (const bits of [16, 24]) {
          const found = detect(quantised(samples, bits));
          expect(found.count).toBe(truth);
          // Rounding may draw one more sample into the first top.
          expect(Math.abs(found.first - first)).toBeLessThanOrEqual(1);
        }
      });
    }
  }

  it("counts the same whatever the pieces", () => {
    const samples = quantised(cutString(48000, 65.4, 1.3, 1).samples, 16);
    // The way up to a first top is looked at within a piece only, so one top more or less may count there.
    const whole = detect(samples).count;
    for (const length of [997, 4096, 65536]) {
      expect(Math.abs(detect(samples, length).count - whole)).toBeLessThanOrEqual(1);
    }
  });

  it("finds hard clipping in 8-bit files, where every low crest has many equal samples", () => {
    const { samples, truth } = cutString(48000, 98, 1.5, 1);
    const { count } = detect(quantised(samples, 8));
    // Only clearly cut tops can be told apart with 256 steps: most of them, and none made up beyond rounding (5 %).
    expect(count).toBeGreaterThan(0.7 * truth);
    expect(count).toBeLessThan(1.05 * truth);
  });

  it("finds no cut in pure sines of any level, rate and resolution", () => {
    for (const rateHz of [8000, 48000, 96000]) {
      for (const bits of [8, 12, 16, 24]) {
        for (const frequencyHz of [20, 50, 65.4, 98, 440, rateHz / 8, rateHz / 6]) {
          for (const amplitude of [0.001, 0.02, 0.5, 0.992, 0.9999]) {
            const turn = (2 * Math.PI * frequencyHz) / rateHz;
            const sine = Float64Array.from(
              { length: rateHz / 4 },
              (_, i) => amplitude * Math.sin(turn * i + 0.3),
            );
            const { count } = detect(quantised(sine, bits));
            expect({ rateHz, bits, frequencyHz, amplitude, count }).toEqual({
              rateHz,
              bits,
              frequencyHz,
              amplitude,
              count: 0,
            });
          }
        }
      }
    }
  });

  it("takes neither silence, nor a constant, nor the foot of a pulse train for a cut", () => {
    expect(detect(new Float32Array(10000)).count).toBe(0);
    expect(detect(new Float32Array(10000).fill(0.25)).count).toBe(0);
    const pulses = Float32Array.from(
      { length: 48000 },
      (_, i) => Math.exp(-((((i % 480) - 240) / 20) ** 2)) * 0.8,
    );
    expect(detect(pulses.map((value) => Math.round(value * 32768) / 32768)).count).toBe(0);
  });

  it("needs a limit below full scale to be met three times, full scale only once", () => {
    const bump = (height: number, times: number) => {
      const samples = noise("white", 48000, 1e-3, 1);
      for (let k = 0; k < times; k++) {
        for (let i = 0; i < 100; i++)
          samples[1000 + 3000 * k + i] += 1.5 * height * Math.sin((Math.PI * i) / 100);
      }
      return quantised(
        samples.map((value) => Math.min(height, value)),
        16,
      );
    };
    expect(detect(bump(1, 1)).count).toBe(1);
    expect(detect(bump(0.6, 2)).count).toBe(0);
    expect(detect(bump(0.6, 3)).count).toBe(3);
  });
});
