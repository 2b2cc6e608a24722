import { describe, expect, it } from "vitest";
import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import { type BodyCurve, bodyCurve } from "../../src/body/bodyCurve.js";
import { connectedStrings } from "../../src/body/connectedStrings.js";
import type { StringPartial } from "../../src/body/StringPartial.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyDb, type InventedBody, partialsOn, stringSets, trueCurve } from "./bodyTruth.js";

const clean = { slopeDb: 0, partialDb: 0, missing: 0 };
const gentle: InventedBody = {
  resonances: [{ frequencyHz: 420, q: 2.5, gainDb: 6 }],
  lowestModeHz: 90,
};
const flat: InventedBody = { resonances: [], lowestModeHz: 0 };

function fitted(curve: BodyCurve) {
  if (curve.status !== "fitted") throw new Error(curve.reason);
  return curve;
}

const levels = (curve: BodyCurve) => fitted(curve).points.map(({ levelDb }) => levelDb);

function expectSame(one: BodyCurve, other: BodyCurve) {
  for (const [i, point] of fitted(one).points.entries()) {
    const twin = fitted(other).points[i];
    expect(twin.partialCount).toBe(point.partialCount);
    if (point.levelDb === null) expect(twin.levelDb).toBeNull();
    else {
      expect(twin.levelDb).toBeCloseTo(point.levelDb, 6);
      expect(twin.interval95Db![0]).toBeCloseTo(point.interval95Db![0], 6);
    }
  }
}

describe("bodyCurve", () => {
  it("of a body that does nothing is 0 dB in every band, whatever the strengths of the strings", () => {
    const curve = fitted(bodyCurve(partialsOn(flat, stringSets.alto, clean, new SeededRandom(61))));
    for (const { levelDb } of curve.points)
      if (levelDb !== null) expect(Math.abs(levelDb)).toBeLessThan(1e-9);
    expect(curve.scatterDb).toBeLessThan(0.4); // 0.3 is the least reckoned with
  });

  it("gives back a gentle body to half a decibel from 355 Hz up, and within its interval everywhere", () => {
    const curve = fitted(bodyCurve(partialsOn(gentle, stringSets.alto, clean, new SeededRandom(62))));
    for (const [i, truth] of trueCurve(gentle).entries()) {
      const { frequencyHz, levelDb, interval95Db } = curve.points[i];
      if (levelDb === null) continue;
      // From 355 Hz up three partials or more sample each band of this body, whose curve moves by 2 dB within one.
      if (frequencyHz > 355) expect(Math.abs(levelDb - truth)).toBeLessThan(0.5);
      expect(interval95Db![0]).toBeLessThan(truth);
      expect(interval95Db![1]).toBeGreaterThan(truth);
    }
  });

  it("counts the partials behind each band and says null where none falls", () => {
    const partials = partialsOn(gentle, stringSets.alto, clean, new SeededRandom(63));
    for (const [i, { lowerHz, upperHz }] of thirdOctaveBands.entries()) {
      const inside = partials.filter(({ frequencyHz: hz }) => hz >= lowerHz && hz < upperHz).length;
      const point = fitted(bodyCurve(partials)).points[i];
      expect(point.partialCount).toBe(inside);
      expect(point.levelDb === null).toBe(inside === 0);
      expect(point.interval95Db === null).toBe(inside === 0);
    }
    // 50, 80 and 160 Hz lie between the partials of C2 and G2.
    expect(levels(bodyCurve(partials)).flatMap((value, i) => (value === null ? [i] : []))).toEqual([0, 2, 5]);
  });

  it("does not change when all levels are shifted, or those of one string", () => {
    const scatter = { slopeDb: 1.5, partialDb: 1.5, missing: 0.1 };
    const partials = partialsOn(gentle, stringSets.alto, scatter, new SeededRandom(64));
    const shifted = (dB: number, isMoved: (one: StringPartial) => boolean) =>
      partials.map((one) => (isMoved(one) ? { ...one, levelDb: one.levelDb + dB } : one));
    const base = bodyCurve(partials);
    expectSame(base, bodyCurve(shifted(-37.5, () => true)));
    expectSame(base, bodyCurve(shifted(20, ({ string }) => string === "string 2")));
    expectSame(base, bodyCurve([...partials].reverse()));
  });

  it("follows a tilt of the body, and widens away from the middle since slopes of the strings may feign one", () => {
    // 3 dB an octave more on every partial: curve + 3 dB an octave, less what of it is taken for slopes of the strings.
    const partials = partialsOn(flat, stringSets.alto, { ...clean, partialDb: 1 }, new SeededRandom(65));
    const tilted = partials.map((one) => ({
      ...one,
      levelDb: one.levelDb + 3 * Math.log2(one.frequencyHz / 700),
    }));
    const base = fitted(bodyCurve(partials)).points;
    const more = fitted(bodyCurve(tilted)).points;
    const width = (point: (typeof base)[number]) => point.interval95Db![1] - point.interval95Db![0];
    const at = (nominalHz: number) => thirdOctaveBands.findIndex((band) => band.nominalHz === nominalHz);
    const tiltDb =
      (more[at(2000)].levelDb! - base[at(2000)].levelDb! - more[at(200)].levelDb! + base[at(200)].levelDb!) /
      Math.log2(10);
    // A slope has a standard deviation of 1.5 / sqrt(6) = 0.6 dB an octave over six strings, the curve one of 7 / sqrt(octaves): nearly
    // all of the tilt is the curve's.
    expect(tiltDb).toBeGreaterThan(2.7);
    expect(tiltDb).toBeLessThan(3.05);
    expect(width(base[at(2000)])).toBeGreaterThan(1.5 * width(base[at(800)]));
    expect(width(base[at(100)])).toBeGreaterThan(2 * width(base[at(800)]));
  });

  it("averages takes, and minds which partials a loud take lacks", () => {
    // No signal-to-noise, since averaging lessens the noise of some partials more than of others.
    const partials = partialsOn(gentle, stringSets.alto, clean, new SeededRandom(66)).map((one) => ({
      ...one,
      signalToNoiseDb: null,
    }));
    const loud = partials
      .filter(({ number }) => number % 3 !== 0)
      .map((one) => ({ ...one, take: "loud", levelDb: one.levelDb + 12 }));
    const soft = partials.map((one) => ({ ...one, take: "soft" }));
    const one = levels(bodyCurve(partials));
    for (const [i, value] of levels(bodyCurve([...loud, ...soft])).entries())
      if (value !== null) expect(value).toBeCloseTo(one[i]!, 6); // the rounds of averaging end at 1e-9 dB
  });

  it("trusts partials in much noise less", () => {
    const partials = partialsOn(flat, stringSets.alto, clean, new SeededRandom(67));
    const at = thirdOctaveBands.findIndex(({ nominalHz }) => nominalHz === 1000);
    // One partial at 1 kHz reads 10 dB too high: at 0 dB of signal-to-noise (a standard deviation of 6 dB) it counts for little.
    const wrong = (signalToNoiseDb: number) =>
      partials.map((one) =>
        one.string === "string 2" && one.number === 8
          ? { ...one, levelDb: one.levelDb + 10, signalToNoiseDb }
          : one,
      );
    const noisy = levels(bodyCurve(wrong(0)))[at]!;
    expect(Math.abs(noisy)).toBeLessThan(0.3);
    expect(levels(bodyCurve(wrong(60)))[at]!).toBeGreaterThan(2 * Math.abs(noisy));
  });

  describe("refuses", () => {
    const far: StringPartial[] = [100, 1000].flatMap((fundamentalHz) =>
      [1, 2].map((number) => ({
        string: String(fundamentalHz),
        number,
        frequencyHz: number * fundamentalHz,
        levelDb: -20 * number,
        signalToNoiseDb: null,
      })),
    );
    const more = [3, 4].flatMap((number) =>
      [100].map((hz) => ({
        string: String(hz),
        number,
        frequencyHz: number * hz,
        levelDb: -20,
        signalToNoiseDb: null,
      })),
    );

    it("strings whose partials share no band", () => {
      expect(bodyCurve([...far, ...more])).toEqual({
        status: "refused",
        reason: "strings-not-connected",
        groups: [["100"], ["1000"]],
      });
    });

    it("where nothing lies between 355 and 1413 Hz", () => {
      const low = partialsOn(gentle, [65.4064, 97.9989], clean, new SeededRandom(68));
      expect(bodyCurve(low.filter(({ frequencyHz }) => frequencyHz < 350))).toMatchObject({
        status: "refused",
        reason: "no-reference",
      });
    });

    it("a handful of partials, and none", () => {
      expect(bodyCurve(far)).toMatchObject({ status: "refused", reason: "too-few-partials" });
      expect(bodyCurve([])).toEqual({ status: "refused", reason: "too-few-partials", groups: [] });
    });

    it("not where a chain of strings joins them", () => {
      const joined = [...far, { ...far[0], string: "bridge", frequencyHz: 205 }];
      expect(connectedStrings([...joined, { ...far[0], string: "bridge", frequencyHz: 1990 }])).toHaveLength(
        1,
      );
      expect(connectedStrings(joined)).toHaveLength(2);
      // 205 Hz lies in the 200 Hz band with partial 2 of the string at 100 Hz; 1990 Hz in the 2 kHz band.
      expect(connectedStrings([...far, { string: "beyond", frequencyHz: 30 }])).toHaveLength(2);
    });
  });

  it("says how far down the body carries", () => {
    // Below 200 Hz this body falls by 12 dB an octave: by 10 lg(1 + (200 / f)^4), 10 dB at 200 / 9^(1/4) = 115.5 Hz.
    const body: InventedBody = { resonances: [], lowestModeHz: 200 };
    expect(bodyDb(body, 200 / 9 ** 0.25)).toBeCloseTo(-10, 10);
    const { lowReach } = fitted(bodyCurve(partialsOn(body, stringSets.scale, clean, new SeededRandom(69))));
    expect(lowReach!.isAtOrBelow).toBe(false);
    expect(Math.abs(Math.log2(lowReach!.lowReachHz / 115.47))).toBeLessThan(1 / 6); // half a third-octave band
    expect(lowReach!.rangeHz[0]).toBeLessThan(115.47);
    expect(lowReach!.rangeHz[1]).toBeGreaterThan(115.47);
    const open = fitted(bodyCurve(partialsOn(flat, stringSets.alto, clean, new SeededRandom(70))));
    expect(open.lowReach!.isAtOrBelow).toBe(true);
    expect(open.lowReach!.lowReachHz / 65.4064).toBeCloseTo(1, 2);
  });
});
