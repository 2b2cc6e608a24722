import { describe, expect, it } from "vitest";
import { hannWindow } from "../../src/signal/hannWindow.js";

describe("hannWindow", () => {
  const sizes = [4, 16, 100, 1024];

  it.each(sizes)("has a coherent gain of 1/2 and a noise bandwidth of 1.5 bins (%i points)", (size) => {
    // Harris 1978, table 1: coherent gain 0.50, equivalent noise bandwidth 1.50 bins; exact for the periodic window.
    const window = hannWindow(size);
    const sum = window.reduce((total, value) => total + value, 0);
    const squares = window.reduce((total, value) => total + value * value, 0);
    expect(sum / size).toBeCloseTo(0.5, 12);
    expect((size * squares) / (sum * sum)).toBeCloseTo(1.5, 12);
  });

  it.each(sizes)("adds up to 1 with itself half a window later (%i points)", (size) => {
    const window = hannWindow(size);
    for (let i = 0; i < size / 2; i++) expect(window[i] + window[i + size / 2]).toBeCloseTo(1, 12);
  });

  it("is 0 at its first point and 1 in the middle", () => {
    expect(hannWindow(8)[0]).toBe(0);
    expect(hannWindow(8)[4]).toBe(1);
  });
});
