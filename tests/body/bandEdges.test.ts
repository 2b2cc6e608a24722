import { describe, expect, it } from "vitest";
import {
  HIGHEST_EDGE_HZ,
  LOW_REGISTER_EDGE_HZ,
  LOWEST_EDGE_HZ,
  octaveBands,
  thirdOctaveBands,
} from "../../src/body/bandEdges.js";

const third = (nominalHz: number) => thirdOctaveBands.find((band) => band.nominalHz === nominalHz)!;

describe("bandEdges", () => {
  // IEC 61260-1:2014: midbands 1000 * G^(x/3) with G = 10^0.3, edges midband * G^(+-1/6); values by that rule, four decimals.
  it.each([
    [63, 56.2341, 70.7946],
    [100, 89.1251, 112.2018],
    [200, 177.8279, 223.8721],
  ])("third-octave %i Hz reaches from %d to %d Hz", (nominalHz, lowerHz, upperHz) => {
    expect(third(nominalHz).lowerHz).toBeCloseTo(lowerHz, 4);
    expect(third(nominalHz).upperHz).toBeCloseTo(upperHz, 4);
  });

  it("octave bands: the low register ends where the 125 Hz band does", () => {
    // 1000 * 10^(0.3 (x +- 1/2)): 10^1.65, 10^2.25, 10^3.45.
    expect(LOWEST_EDGE_HZ).toBeCloseTo(44.668, 3);
    expect(LOW_REGISTER_EDGE_HZ).toBeCloseTo(177.828, 3);
    expect(HIGHEST_EDGE_HZ).toBeCloseTo(2818.38, 2);
  });

  it("exact midbands of the octave bands are 63.096, 125.893, 251.189, 501.187, 1000, 1995.262 Hz", () => {
    // IEC 61260-1:2014, base-ten exact midbands.
    const expected = [63.096, 125.893, 251.189, 501.187, 1000, 1995.262];
    for (const [i, band] of octaveBands.entries()) expect(band.midbandHz).toBeCloseTo(expected[i], 3);
    expect(octaveBands.map(({ nominalHz }) => nominalHz)).toEqual([63, 125, 250, 500, 1000, 2000]);
  });

  it.each([
    ["octave", octaveBands],
    ["third-octave", thirdOctaveBands],
  ])("%s bands leave no gap and no overlap, and bear their own nominal frequency", (_name, bands) => {
    for (const [i, band] of bands.entries()) {
      if (i > 0) expect(band.lowerHz / bands[i - 1].upperHz).toBeCloseTo(1, 12);
      expect(Math.sqrt(band.lowerHz * band.upperHz) / band.midbandHz).toBeCloseTo(1, 12);
      // The nominal numbers are rounded: at most 1.6 % (800 for 794.3 is 0.7, 315 for 316.2 0.4, 63 for 63.1 ...).
      expect(Math.abs(band.nominalHz / band.midbandHz - 1)).toBeLessThan(0.016);
    }
  });

  it("three third-octave bands make up one octave band", () => {
    expect(third(50).lowerHz / LOWEST_EDGE_HZ).toBeCloseTo(1, 12);
    expect(third(160).upperHz / LOW_REGISTER_EDGE_HZ).toBeCloseTo(1, 12);
    expect(third(2500).upperHz / HIGHEST_EDGE_HZ).toBeCloseTo(1, 12);
    expect(thirdOctaveBands).toHaveLength(3 * octaveBands.length);
  });
});
