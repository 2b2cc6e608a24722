import { describe, expect, it } from "vitest";
import type { ComparisonFinding } from "../../src/comparison/Comparison.js";
import { comparisonFindingDocument } from "../../src/report/comparisonFindingDocument.js";
import { comparisonWordings } from "../../src/report/comparisonWordings.js";

const names = { sideA: "Pear", sideB: "Maple" };

/** Findings as the comparison makes them, and what must be read in their sentence. */
const found: [ComparisonFinding["code"], ComparisonFinding["values"], ...string[]][] = [
  ["note-missing", { strings: "C2 + G2", side: "Pear", takeCount: 2 }, "C2 + G2", "2 of the takes of Pear"],
  ["no-common-note", {}, "no string that every take has"],
  ["no-low-part", { sides: "Maple" }, "low part of Maple can't be had"],
  ["one-take", { sides: "Pear, Maple" }, "Pear, Maple: one take only"],
  [
    "take-apart",
    { side: "Pear", take: 3, takeCount: 5, value: -8.24 },
    "Pear: take 3 of 5 (-8.2 dB) stands apart",
  ],
  ["no-scatter", { sides: "Pear" }, "Pear: takes that are all but identical"],
  ["sample-rates-differ", { ...names, ratesA: "48000", ratesB: "44100" }, "Pear 48000 Hz, Maple 44100 Hz"],
  [
    "low-cut-differs",
    { ...names, cutoffHzA: 80.4, cutoffHzB: 120 },
    "Pear below about 80 Hz, Maple below about 120 Hz",
  ],
  ["low-cut-differs", { ...names, cutoffHzA: 80.4 }, "On Pear", "80 Hz, on Maple not"],
  ["low-cut-differs", { ...names, cutoffHzB: 80.4 }, "On Maple", "80 Hz, on Pear not"],
  [
    "codecs-differ",
    { ...names, codecsA: "AAC and MP3", codecsB: "without loss" },
    "Pear AAC and MP3, Maple without loss",
  ],
  [
    "band-limit-differs",
    { ...names, cutoffHzA: 15_950, cutoffHzB: 3400 },
    "at about 15950 Hz on Pear and at about 3400 Hz on Maple",
  ],
  ["band-limit-differs", { ...names, cutoffHzA: 15_950 }, "On Pear", "above about 15950 Hz", "seen on Maple"],
  ["band-limit-differs", { ...names, cutoffHzB: 15_950 }, "On Maple", "above about 15950 Hz", "seen on Pear"],
  [
    "noise-differs",
    { ...names, noteToNoiseDbA: 45, noteToNoiseDbB: 31.2 },
    "45 dB over the noise on Pear and 31 dB on Maple",
  ],
  ["gain-control-used", { side: "Pear", takeCount: 1 }, "1 of the takes of Pear"],
  ["clipping-present", { side: "Pear", takeCount: 1 }, "1 of the takes of Pear"],
  [
    "tunings-differ",
    { ...names, strings: "C2, D4", largestCents: 7.25, string: "C2" },
    "C2 by 7.3 cents (of C2, D4)",
  ],
  [
    "no-body-curve",
    { side: "Pear", takeCount: 1, reason: "strings-not-connected", groups: "C2; D4" },
    "C2; D4",
  ],
  [
    "no-body-curve",
    { side: "Pear", takeCount: 1, reason: "too-few-partials", groups: "" },
    "Pear",
    "too few partials",
  ],
  [
    "no-body-curve",
    { side: "Pear", takeCount: 1, reason: "no-reference", groups: "" },
    "between 355 and 1413 Hz",
  ],
  [
    "reach-below-lowest",
    { sides: "Pear", frequencyHz: 65.41, reason: "all-takes" },
    "The low reach of Pear lies at or below 65 Hz: even the lowest partial that was played is within 10 dB.",
  ],
  [
    "reach-below-lowest",
    { sides: "Pear", frequencyHz: 65.41, reason: "some-takes" },
    "In some takes of Pear",
  ],
  ["microphone-short", { fromHz: 60, toHz: 2000 }, "from 60 to 2000 Hz"],
];

describe("comparisonWordings", () => {
  it.each(found)("%s is told with its numbers", (code, values, ...parts: string[]) => {
    const { message } = comparisonFindingDocument({ code, severity: "info", values });
    for (const part of parts) expect(message).toContain(part);
    expect(message).not.toMatch(/[{}]|undefined|NaN/);
    expect(message).toMatch(/\.$/);
  });

  it("has every code among these, and a sentence for each even without its values", () => {
    expect([...new Set(found.map(([code]) => code))].sort()).toEqual(Object.keys(comparisonWordings).sort());
    for (const code of Object.keys(comparisonWordings) as ComparisonFinding["code"][]) {
      const { message } = comparisonFindingDocument({ code, severity: "info", values: {} });
      expect(message).not.toMatch(/[{}]|^Found:/);
    }
  });

  it("makes names harmless, and rounds its values", () => {
    const { message, values } = comparisonFindingDocument({
      code: "one-take",
      severity: "problem",
      values: { sides: "a\u001b[2Jb\n", x: 1.23456789 },
    });
    expect(message).not.toMatch(/\p{Cc}/u);
    expect(values.x).toBe(1.23457);
  });
});
