import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ANALYSIS_TOP_HZ, Decimator, decimationFactor } from "../../src/signal/Decimator.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const RATES = [8000, 11025, 16000, 22050, 44100, 48000, 96000, 192000, 384000];

function decimated(decimator: Decimator, pieces: readonly Float32Array[]): Float32Array {
  const out: number[] = [];
  for (const piece of pieces) out.push(...decimator.push(piece));
  out.push(...decimator.finish());
  return Float32Array.from(out);
}

const sine = (frequencyHz: number, sampleRateHz: number, length: number, phase = 0) =>
  Float32Array.from({ length }, (_, i) => Math.cos((2 * Math.PI * frequencyHz * i) / sampleRateHz + phase));

/**
 * Frequency response from the impulse response, which is read off as the output for an impulse at each phase of the
 * decimation. All of it is real: the filter is symmetric and its delay taken out.
 */
function impulseResponse(sampleRateHz: number): { taps: Float64Array; centre: number } {
  const factor = decimationFactor(sampleRateHz);
  const centre = factor * Math.ceil(2500 / factor);
  const taps = new Float64Array(2 * centre);
  for (let phase = 0; phase < factor; phase++) {
    const input = new Float32Array(2 * centre);
    input[centre + phase] = 1;
    const out = decimated(new Decimator(sampleRateHz), [input]);
    // out[k] = h(k * factor - centre - phase)
    for (let k = 0; k < out.length; k++) {
      const index = k * factor - phase;
      if (index >= 0 && index < taps.length) taps[index] = out[k];
    }
  }
  return { taps, centre };
}

function gainDb({ taps, centre }: { taps: Float64Array; centre: number }, frequencyHz: number, rate: number) {
  let real = 0;
  let imaginary = 0;
  for (let i = 0; i < taps.length; i++) {
    if (taps[i] === 0) continue;
    const angle = (2 * Math.PI * frequencyHz * (i - centre)) / rate;
    real += taps[i] * Math.cos(angle);
    imaginary += taps[i] * Math.sin(angle);
  }
  return { db: 20 * Math.log10(Math.max(1e-12, Math.hypot(real, imaginary))), imaginary };
}

describe.each(RATES)("Decimator at %i Hz", (rate) => {
  const factor = decimationFactor(rate);
  const response = impulseResponse(rate);

  it("leaves 8 to 16 kHz, by the largest whole factor", () => {
    const { outputRateHz } = new Decimator(rate);
    expect(outputRateHz * factor).toBeCloseTo(rate, 6);
    expect(outputRateHz).toBeGreaterThanOrEqual(8000);
    expect(rate / (factor + 1)).toBeLessThan(8000);
  });

  it("is flat within 0.001 dB up to 3 kHz and has no phase", () => {
    for (let hz = 0; hz <= ANALYSIS_TOP_HZ; hz += 25) {
      const { db, imaginary } = gainDb(response, hz, rate);
      // Promised in its docstring; the 90 dB Kaiser design has a ripple of 20 lg(1 + 10^-4.5) = 0.0003 dB.
      expect(Math.abs(db)).toBeLessThan(0.001);
      // Float32 output: about 1e-7.
      expect(Math.abs(imaginary)).toBeLessThan(1e-6);
    }
  });

  it("holds what folds onto that range at least 85 dB down", () => {
    let worst = Number.NEGATIVE_INFINITY;
    const outputHz = rate / factor;
    for (let multiple = 1; factor > 1 && multiple * outputHz - ANALYSIS_TOP_HZ <= rate / 2; multiple++) {
      const to = Math.min(rate / 2, multiple * outputHz + ANALYSIS_TOP_HZ);
      for (let hz = multiple * outputHz - ANALYSIS_TOP_HZ; hz <= to; hz += multiple === 1 ? 25 : 250) {
        worst = Math.max(worst, gainDb(response, hz, rate).db);
      }
    }
    // Kaiser's length formula is an estimate: it lands within about 1 dB of the 90 dB asked for. Beyond 85 dB aliases
    // lie under the noise of any 14-bit converter.
    expect(worst).toBeLessThan(-85);
  });

  it("puts sample k on input sample k * factor", () => {
    const hz = 1234.5;
    const out = decimated(new Decimator(rate), [sine(hz, rate, 4096 * factor, 0.7)]);
    expect(out.length).toBe(4096);
    const margin = 200; // the filter's ends reach over at most 13 output samples
    for (let k = margin; k < out.length - margin; k += 7) {
      // Ripple and float32 rounding together stay under 1e-4 of the amplitude: 0.01 of a sample in time at 44.1 kHz.
      expect(Math.abs(out[k] - Math.cos((2 * Math.PI * hz * k * factor) / rate + 0.7))).toBeLessThan(1e-4);
    }
  });
});

describe("Decimator", () => {
  it("gives the same samples whatever the pieces", () => {
    const random = new SeededRandom(11);
    const input = Float32Array.from({ length: 6000 }, () => random.normal(0.1));
    fc.assert(
      fc.property(
        fc.constantFrom(11025, 22050, 44100, 48000, 192000),
        fc.array(fc.oneof(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 2500 })), {
          maxLength: 12,
        }),
        (rate, sizes) => {
          const pieces: Float32Array[] = [];
          let start = 0;
          for (const size of sizes) {
            pieces.push(input.slice(start, start + size));
            start += size;
          }
          pieces.push(input.slice(start));
          // Exactly the same: each output sample is the same sum in the same order.
          expect(decimated(new Decimator(rate), pieces)).toEqual(decimated(new Decimator(rate), [input]));
        },
      ),
      { numRuns: 60 },
    );
  });

  it("covers the input to its last sample", () => {
    for (const length of [1, 5, 6, 7, 600, 601]) {
      expect(decimated(new Decimator(48000), [new Float32Array(length)]).length).toBe(Math.ceil(length / 6));
    }
  });

  it("gives nothing for nothing", () => {
    expect(decimated(new Decimator(48000), []).length).toBe(0);
    expect(decimated(new Decimator(8000), []).length).toBe(0);
  });

  it("leaves a recording that rests at a level as it is, from its first sample to its last", () => {
    for (const rate of RATES) {
      const decimator = new Decimator(rate, 0.3);
      const out = [...decimator.push(new Float32Array(5000).fill(0.3)), ...decimator.finish()];
      expect(out.length).toBe(Math.ceil(5000 / decimator.factor));
      // Single precision, a few times over.
      for (const value of out) expect(Math.abs(value - 0.3)).toBeLessThan(2e-7);
    }
  });
});
