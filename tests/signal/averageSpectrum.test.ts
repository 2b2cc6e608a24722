import { describe, expect, it } from "vitest";
import { averageSpectrum, MAIN_LOBE_BINS } from "../../src/signal/averageSpectrum.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const RATE = 8000;
const sine = (amplitude: number, frequencyHz: number, length: number, phase = 0.4) =>
  Float32Array.from(
    { length },
    (_, i) => amplitude * Math.sin((2 * Math.PI * frequencyHz * i) / RATE + phase),
  );

describe("averageSpectrum", () => {
  it.each([
    ["on a bin", 1000],
    ["between two bins", 1000.9766],
    ["a little off", 440.3],
  ])("a sine of amplitude a has power a^2, summed over its line (%s)", (_name, frequencyHz) => {
    const { density, binHz } = averageSpectrum(sine(0.3, frequencyHz, 16000), RATE, 4096);
    const centre = Math.round(frequencyHz / binHz);
    let power = 0;
    for (let k = centre - MAIN_LOBE_BINS; k <= centre + MAIN_LOBE_BINS; k++) power += density[k] * binHz;
    // Parseval: all of a^2 lies in the line but for side lobes 92 dB down (Harris 1978) and, between two bins, the
    // foot of the main lobe: under 1e-4 of it.
    expect(power / 0.3 ** 2).toBeCloseTo(1, 3);
  });

  it("a line of power P stands at P / noiseBandwidthHz, which for this window is 2.00 bins", () => {
    const { density, binHz, noiseBandwidthHz } = averageSpectrum(sine(0.5, 1000, 16000), RATE, 4096);
    // Harris 1978, table 1: equivalent noise bandwidth of the four-term Blackman-Harris window 2.00 bins, two decimals.
    expect(noiseBandwidthHz / binHz).toBeCloseTo(2.0, 2);
    expect((density[512] * noiseBandwidthHz) / 0.25).toBeCloseTo(1, 4); // on a bin: float32 rounding only
  });

  it("holds side lobes 92 dB down", () => {
    const { density } = averageSpectrum(sine(1, 1000.9766, 4096), RATE, 4096);
    const peak = Math.max(...density);
    const far = density.filter((_, k) => Math.abs(k - 512.5) > MAIN_LOBE_BINS + 0.6);
    // Harris 1978, table 1: highest side lobe -92 dB, to the dB; between two bins the peak lies 0.83 dB low besides.
    expect(10 * Math.log10(Math.max(...far) / peak)).toBeLessThan(-90.5);
  });

  it("white noise of variance v has density 2 v / (rate / 2)", () => {
    // A full-scale sine counts as power 1 where its variance is 1/2, so noise counts double too.
    const random = new SeededRandom(4);
    const samples = Float32Array.from({ length: 120_000 }, () => random.normal(0.02));
    const { density, segmentCount } = averageSpectrum(samples, RATE, 1024);
    const inner = density.slice(10, -10);
    const mean = inner.reduce((sum, value) => sum + value, 0) / inner.length;
    // 120,000 samples: the power is known to sqrt(2 / 120000) = 0.4 %; four times that.
    expect(Math.abs(mean / ((2 * 0.02 ** 2) / (RATE / 2)) - 1)).toBeLessThan(0.016);
    // Welch 1967: at half overlap, neighbours of a strongly tapered window are nearly independent, so the scatter of
    // one bin is close to 1 / sqrt(segments); 20 % for the rest of the correlation and chance.
    const sd = Math.sqrt(inner.reduce((sum, value) => sum + (value / mean - 1) ** 2, 0) / inner.length);
    expect(sd * Math.sqrt(segmentCount)).toBeGreaterThan(0.8);
    expect(sd * Math.sqrt(segmentCount)).toBeLessThan(1.2);
  });

  it("takes half-overlapping segments, and a short signal as one padded segment", () => {
    expect(averageSpectrum(new Float32Array(4096), RATE, 1024).segmentCount).toBe(7);
    const short = averageSpectrum(sine(0.3, 1000, 1500), RATE, 4096);
    expect(short.segmentCount).toBe(1);
    expect(short.binHz).toBe(RATE / 4096);
    const peak = Math.max(...short.density);
    // The line is as wide as 1500 samples make it, finely sampled by the padding: its top is right to rounding.
    expect((peak * short.noiseBandwidthHz) / 0.09).toBeCloseTo(1, 3);
  });

  it("is zero for silence", () => {
    const { density } = averageSpectrum(new Float32Array(4096), RATE, 1024);
    expect(density.every((value) => value === 0)).toBe(true);
  });

  it("does not care about gain but for its square, nor about polarity", () => {
    const base = averageSpectrum(sine(0.5, 700, 9000), RATE, 2048).density;
    const flipped = averageSpectrum(sine(-0.125, 700, 9000), RATE, 2048).density;
    for (let k = 170; k < 190; k++) expect(base[k] / flipped[k]).toBeCloseTo(16, 3); // float32 rounding
  });
});
