import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { spectrogramOf } from "../../src/audio/spectrogramOf.js";

const RATE_HZ = 16_000;

function sine(frequencyHz: number, seconds: number, from = 0, to = seconds): Float32Array {
  return Float32Array.from({ length: Math.round(seconds * RATE_HZ) }, (_, i) => {
    const t = i / RATE_HZ;
    return t >= from && t < to ? 0.5 * Math.sin(2 * Math.PI * frequencyHz * t) : 0;
  });
}

function strongestHz(spectrogram: ReturnType<typeof spectrogramOf>, column: number): number {
  const { levels, rowCount, lowestHz, highestHz } = spectrogram;
  const own = levels.subarray(column * rowCount, (column + 1) * rowCount);
  const top = Math.max(...own);
  const rows = [...own.keys()].filter((row) => own[row] === top);
  const middle = rows.reduce((sum, row) => sum + row + 0.5, 0) / rows.length;
  return lowestHz * (highestHz / lowestHz) ** (middle / rowCount);
}

describe("spectrogramOf", () => {
  it.each([65.4, 110, 440, 1000, 2500])("shows a sine of %f Hz at its place", (frequencyHz) => {
    const spectrogram = spectrogramOf(memoryRecording([sine(frequencyHz, 3)], RATE_HZ));
    const found = strongestHz(spectrogram, Math.floor(spectrogram.columnCount / 2));
    // A bin is 3.9 Hz wide (2,048 samples at 8 kHz), a row a third of a semitone.
    const reach = Math.max(3.9 / 2 / frequencyHz, 2 ** (1 / 36) - 1);
    expect(Math.abs(found / frequencyHz - 1)).toBeLessThan(reach);
  });

  it("shows when it sounds, to half a window", () => {
    const spectrogram = spectrogramOf(memoryRecording([sine(440, 4, 1, 3)], RATE_HZ));
    const { levels, rowCount, columnCount, columnSeconds } = spectrogram;
    const loud = Array.from({ length: columnCount }, (_, c) =>
      Math.max(...levels.subarray(c * rowCount, (c + 1) * rowCount)),
    );
    const seconds = loud.flatMap((level, c) => (level > 230 ? [(c + 0.5) * columnSeconds] : []));
    expect(Math.abs(seconds[0]! - 1)).toBeLessThan(0.13);
    expect(Math.abs(seconds.at(-1)! - 3)).toBeLessThan(0.13);
    expect(loud[0]).toBe(0);
    expect(loud.at(-1)).toBe(0);
  });

  it("has no more columns than asked for, and not more than the sound has", () => {
    const short = memoryRecording([sine(440, 1)], RATE_HZ);
    expect(spectrogramOf(short).columnCount).toBe(25);
    expect(spectrogramOf(short, 10).columnCount).toBe(10);
  });

  it("adds powers of channels: one that is turned over cancels nothing", () => {
    const one = sine(440, 2);
    const both = spectrogramOf(memoryRecording([one, one.map((value) => -value)], RATE_HZ));
    const alone = spectrogramOf(memoryRecording([one], RATE_HZ));
    expect(both.levels).toEqual(alone.levels);
  });

  it("is empty for silence and for samples that are no numbers", () => {
    for (const value of [0, Number.NaN]) {
      const { levels } = spectrogramOf(memoryRecording([new Float32Array(RATE_HZ).fill(value)], RATE_HZ));
      expect(levels.every((level) => level === 0)).toBe(true);
    }
  });
});
