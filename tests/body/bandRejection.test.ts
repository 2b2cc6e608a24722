import { describe, expect, it } from "vitest";
import { type Band, octaveBands, thirdOctaveBands } from "../../src/body/bandEdges.js";
import { bandLevelDb } from "../../src/body/lowRegister.js";

const G = 10 ** 0.3;
/** Class 1 limits of relative attenuation, IEC 61260-1:2014: least and greatest in dB at breakpoints, here by exponent of G for octave bands. */
const INSIDE: readonly (readonly [exponent: number, least: number, greatest: number])[] = [
  [0, -0.4, 0.4],
  [1 / 8, -0.4, 0.5],
  [1 / 4, -0.4, 0.7],
  [3 / 8, -0.4, 1.4],
  [1 / 2, -0.4, 5.3],
];
const OUTSIDE: readonly (readonly [exponent: number, least: number])[] = [
  [1 / 2, 1.2],
  [1, 16.6],
  [2, 40.5],
  [3, 60],
  [4, 70],
];

/** The standard's mapping of an octave band's normalised frequency to that of a fraction (formula from memory; it gives the tabled ones). */
function breakpoint(exponent: number, bandsPerOctave: number): number {
  return 1 + ((G ** (1 / (2 * bandsPerOctave)) - 1) / (G ** 0.5 - 1)) * (G ** exponent - 1);
}

/** Linear in lg of the normalised frequency, as the standard says; beyond the last breakpoint its own limit. */
function between(points: readonly (readonly [number, number])[], omega: number): number {
  for (let i = 1; i < points.length; i++) {
    const [from, low] = points[i - 1];
    const [to, high] = points[i];
    if (omega <= to) return low + ((high - low) * Math.log(omega / from)) / Math.log(to / from);
  }
  return points[points.length - 1][1];
}

/** Attenuation of a lone line: what of its power the band leaves out. */
function attenuationDb(band: Band, frequencyHz: number): number {
  const levelDb = bandLevelDb([{ frequencyHz, power: 1 }], band);
  return levelDb === null ? Number.POSITIVE_INFINITY : -levelDb;
}

describe("bands of fitted partials against IEC 61260-1:2014, class 1", () => {
  it("the mapping of breakpoints gives the tabled ones of third-octave bands", () => {
    // Table of the standard for third-octaves: 1.02667, 1.05575, 1.08746, 1.12202; 1.29437, 1.88173, 3.05365, 5.39195.
    const tabled = [1.02667, 1.05575, 1.08746, 1.12202, 1.29437, 1.88173, 3.05365, 5.39195];
    for (const [i, exponent] of [1 / 8, 1 / 4, 3 / 8, 1 / 2, 1, 2, 3, 4].entries())
      expect(breakpoint(exponent, 3)).toBeCloseTo(tabled[i], 5);
    // And those of octave bands.
    for (const [i, omega] of [1.09018, 1.1885, 1.29569, 1.41254].entries())
      expect(breakpoint((i + 1) / 8, 1)).toBeCloseTo(omega, 5);
    for (const [i, omega] of [1.99526, 3.98107, 7.94328, 15.8489].entries())
      expect(breakpoint(i + 1, 1)).toBeCloseTo(omega, 4);
  });

  it.each([
    ["octave", octaveBands, 1],
    ["third-octave", thirdOctaveBands, 3],
  ] as const)("a line swept through every %s band keeps the limits", (_name, bands, bandsPerOctave) => {
    const inside = (column: 1 | 2) =>
      INSIDE.map((row) => [breakpoint(row[0], bandsPerOctave), row[column]] as const);
    const outside = OUTSIDE.map(
      ([exponent, least]) => [breakpoint(exponent, bandsPerOctave), least] as const,
    );
    const edge = breakpoint(0.5, bandsPerOctave);
    for (const band of bands) {
      for (let step = -600; step <= 600; step++) {
        // From a twentieth to twenty times the midband, in steps of half a percent; never exactly on an edge.
        const omega = 20 ** ((step + 0.37) / 600);
        const distance = Math.max(omega, 1 / omega);
        const attenuation = attenuationDb(band, omega * band.midbandHz);
        if (distance < edge) {
          expect(attenuation).toBeGreaterThanOrEqual(between(inside(1), distance));
          expect(attenuation).toBeLessThanOrEqual(between(inside(2), distance));
        } else {
          expect(attenuation).toBeGreaterThanOrEqual(between(outside, distance));
          // Sharp edges do better than the standard asks: nothing comes through.
          expect(attenuation).toBe(Number.POSITIVE_INFINITY);
        }
      }
    }
  });

  it("the two sides of an edge belong to neighbours: a line is in one band only", () => {
    for (const bands of [octaveBands, thirdOctaveBands]) {
      for (let step = 0; step < 500; step++) {
        const frequencyHz = 44.7 * (2818 / 44.7) ** (step / 500);
        expect(bands.filter((band) => attenuationDb(band, frequencyHz) === 0)).toHaveLength(1);
      }
    }
  });
});
