import { describe, expect, it } from "vitest";
import {
  chartColours,
  seriesColours,
  seriesDashes,
  seriesSymbols,
} from "../../../src/report/charts/chartColours.js";

// WCAG 2.1: relative luminance and contrast by its definitions; 3 to 1 for what is no text (success criterion 1.4.11).
const LEAST_CONTRAST = 3;

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
}

describe.each(["light", "dark"] as const)("colours of charts, %s", (shade) => {
  const { paper, band, rule: _rule, ...marks } = chartColours;

  it("reckons contrast as WCAG does", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9);
    // The grey that just passes 4.5 to 1 on white, as it is often named.
    expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
  });

  it.each(Object.entries(marks))("%s stands out from the page", (_, colour) => {
    expect(contrast(colour[shade], paper[shade])).toBeGreaterThanOrEqual(LEAST_CONTRAST);
  });

  // What is drawn over a band: curves, lines across, intervals.
  it.each(["first", "second", "ink", "accent"] as const)("%s stands out from a band", (name) => {
    expect(contrast(chartColours[name][shade], band[shade])).toBeGreaterThanOrEqual(LEAST_CONTRAST);
  });
});

describe("series", () => {
  it("differ by dash or symbol too, for those who can't tell their colours", () => {
    const seen = seriesColours.map((_, i) => `${String(seriesDashes[i])} ${seriesSymbols[i]}`);
    expect(new Set(seen).size).toBe(seriesColours.length);
    expect(new Set(seriesSymbols).size).toBe(seriesColours.length);
  });

  it("each have a variable of their own, and colours that no other has", () => {
    const all = Object.values(chartColours);
    for (const part of ["variable", "light", "dark"] as const) {
      expect(new Set(all.map((one) => one[part])).size).toBe(all.length);
    }
  });
});
