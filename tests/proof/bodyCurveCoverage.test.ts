import { beforeAll, describe, expect, it } from "vitest";
import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import { bodyCurve } from "../../src/body/bodyCurve.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { partialsOn, randomBody, stringSets, trueCurve } from "../body/bodyTruth.js";

/**
 * Does the body curve's interval hold the true third-octave average in 95 of 100 cases, over random bodies, string strengths, slopes off
 * 1/n (1.5 dB an octave), 8 % of partials missing, and 1 or 2 dB of scatter? Seeds chosen before the first run; the method was
 * chosen on others.
 */
const SEED = 6_301_500;
const TRIALS = 80;

interface Errors {
  readonly set: string;
  readonly partialDb: number;
  readonly band: number;
  readonly errorDb: number;
  readonly halfDb: number;
}

function errorsOf(set: string, partialDb: number, slopeDb: number, seed: number): Errors[] {
  const random = new SeededRandom(seed);
  return Array.from({ length: TRIALS }, () => {
    const body = randomBody(random);
    const truth = trueCurve(body);
    const curve = bodyCurve(partialsOn(body, stringSets[set], { slopeDb, partialDb, missing: 0.08 }, random));
    if (curve.status !== "fitted") throw new Error(curve.reason);
    return curve.points.flatMap(({ levelDb, interval95Db }, band) =>
      levelDb === null
        ? []
        : [
            {
              set,
              partialDb,
              band,
              errorDb: levelDb - truth[band],
              halfDb: (interval95Db![1] - interval95Db![0]) / 2,
            },
          ],
    );
  }).flat();
}

const coverage = (cases: readonly Errors[]) =>
  cases.filter(({ errorDb, halfDb }) => Math.abs(errorDb) <= halfDb).length / cases.length;
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values: readonly number[]) => Math.sqrt(mean(values.map((value) => value * value)));

describe("the body curve's interval", () => {
  let found: Errors[] = [];
  beforeAll(() => {
    const kinds = Object.keys(stringSets).flatMap((set) =>
      [1, 2].map((partialDb) => [set, partialDb] as const),
    );
    found = kinds.flatMap(([set, partialDb], i) => errorsOf(set, partialDb, 1.5, SEED + i));
    const rows = kinds.map(([set, partialDb]) => {
      const own = found.filter((one) => one.set === set && one.partialDb === partialDb);
      return `${set} ${partialDb} dB: ${(100 * coverage(own)).toFixed(1)} %, rms error ${rms(own.map((one) => one.errorDb)).toFixed(2)} dB`;
    });
    const bands = thirdOctaveBands.map(({ nominalHz }, band) => {
      const own = found.filter((one) => one.band === band);
      if (own.length === 0) return `${nominalHz}: none`;
      const errors = own.map(({ errorDb }) => errorDb);
      return `${nominalHz}: mean ${mean(errors).toFixed(2)} rms ${rms(errors).toFixed(2)} half ${mean(own.map((one) => one.halfDb)).toFixed(2)} ${(100 * coverage(own)).toFixed(0)} %`;
    });
    console.log([...rows, ...bands].join("\n"));
  }, 120_000);

  it("holds the truth in 93 to 97 of 100 cases", () => {
    // 480 bodies; within one body the points err together (a tilt), which makes the standard error 0.5 points or so.
    expect(coverage(found)).toBeGreaterThan(0.93);
    expect(coverage(found)).toBeLessThan(0.97);
  });

  it("is not bought by one string set or scatter at the cost of another", () => {
    for (const set of Object.keys(stringSets))
      for (const partialDb of [1, 2]) {
        const own = found.filter((one) => one.set === set && one.partialDb === partialDb);
        // 80 bodies: standard error about 1.2 points; 3 of them.
        expect(coverage(own)).toBeGreaterThan(0.93 - 0.037);
        expect(coverage(own)).toBeLessThan(0.97 + 0.025);
      }
  });

  it("lies about a curve without bias from 100 Hz up, and within 2.5 dB below", () => {
    for (const [band, { nominalHz }] of thirdOctaveBands.entries()) {
      const errors = found.filter((one) => one.band === band).map(({ errorDb }) => errorDb);
      if (errors.length < 50) continue;
      const standardError = rms(errors) / Math.sqrt(errors.length);
      // The lowest band hangs on one partial a string; a steep fall there is told from the string's own slope in part only.
      expect(Math.abs(mean(errors))).toBeLessThan(nominalHz < 90 ? 2.5 : 0.4 + 3 * standardError);
    }
  });

  it("is too wide, not too narrow, where the strings have no slopes of their own", () => {
    expect(coverage(errorsOf("alto", 1.5, 0, SEED + 100))).toBeGreaterThan(0.95);
  });
});
