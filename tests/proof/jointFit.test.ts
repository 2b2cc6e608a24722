import { describe, expect, it } from "vitest";
import { detectStrings } from "../../src/partials/joint/detectStrings.js";
import { fitJointly } from "../../src/partials/joint/fitJointly.js";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import {
  EDGE_SECONDS,
  MIXTURE_RATE_HZ,
  type Mixture,
  randomMixture,
  SEVEN_HZ,
  SEVEN_NAMES,
} from "./mixtureCases.js";

// None of these seeds was used while the joint fit was developed.
const SETS: readonly (readonly [string, readonly number[], number])[] = [
  ["C2+G2+C3+G3", [0, 1, 2, 3], 4101],
  ["G2+D4+G4", [1, 5, 6], 4102],
  ["C2+C3", [0, 2], 4103],
  ["G3+G4", [3, 6], 4104],
  ["C2+G2+C3+G3+D4+G4", [0, 1, 2, 3, 5, 6], 4105],
];

function errorsCents({ samples, seconds, pitches }: Mixture, startsHz: readonly number[], spanCents: number) {
  const end = EDGE_SECONDS + seconds;
  const segment = { samples, sampleRateHz: MIXTURE_RATE_HZ, firstSeconds: 0 };
  const fits = fitJointly(segment, EDGE_SECONDS, end, startsHz, spanCents);
  return fits.map((fit, i) => Math.abs(cents(fit.frequencyHz, pitches[i].meanHz(EDGE_SECONDS, end))));
}

describe("fitJointly, the set of strings given, from random starts up to 45 cents off", () => {
  it.each(SETS)(
    "%s: truth is the mean pitch that each string really had",
    (_, indices, seed) => {
      const random = new SeededRandom(seed);
      const errors = Array.from({ length: 12 }, () => {
        const mixture = randomMixture(
          indices.map((i) => SEVEN_HZ[i]),
          random,
          { swingCents: [0.5, 2.5] },
        );
        const starts = mixture.pitches.map(
          (pitch) => pitch.underlyingHz * 2 ** (random.uniform(-45, 45) / 1200),
        );
        return errorsCents(mixture, starts, 60);
      }).flat();
      // The project's bars are 0.3 cent in the median and 0.8 at worst; the fit is held closer to what it does (0.01, 0.2).
      expect(median(errors)).toBeLessThan(0.05);
      expect(Math.max(...errors)).toBeLessThan(0.4);
    },
    120_000,
  );

  it("with 4 cents of wheel swing", () => {
    const random = new SeededRandom(4110);
    const errors = Array.from({ length: 10 }, () => {
      const mixture = randomMixture(
        [0, 1, 2, 3].map((i) => SEVEN_HZ[i]),
        random,
        { swingCents: [4, 4] },
      );
      return errorsCents(
        mixture,
        mixture.pitches.map((pitch) => pitch.underlyingHz),
        20,
      );
    }).flat();
    // The project's bars: 0.4 and 1.0.
    expect(median(errors)).toBeLessThan(0.1);
    expect(Math.max(...errors)).toBeLessThan(0.5);
  }, 120_000);
});

describe("detectStrings", () => {
  it("finds the right set of 1 to 4 of seven strings in at least 95 of 100 random mixtures", () => {
    const random = new SeededRandom(4120);
    const confusions: string[] = [];
    const errors: number[] = [];
    for (let trial = 0; trial < 100; trial++) {
      const count = 1 + (trial % 4);
      const order = SEVEN_HZ.map((_, i) => ({ i, key: random.uniform() })).sort((a, b) => a.key - b.key);
      const set = order
        .slice(0, count)
        .map(({ i }) => i)
        .sort((a, b) => a - b);
      const mixture = randomMixture(
        set.map((i) => SEVEN_HZ[i]),
        random,
        { swingCents: [0.5, 2.5] },
      );
      const segment = { samples: mixture.samples, sampleRateHz: MIXTURE_RATE_HZ, firstSeconds: 0 };
      const found = detectStrings(segment, EDGE_SECONDS, EDGE_SECONDS + mixture.seconds, SEVEN_HZ);
      const names = (indices: readonly number[]) => indices.map((i) => SEVEN_NAMES[i]).join("+");
      const said = names(found.map(({ index }) => index));
      if (said !== names(set)) confusions.push(`${names(set)} read as ${said}`);
      else if (trial % 4 === 3) {
        errors.push(
          ...errorsCents(
            mixture,
            found.map(({ frequencyHz }) => frequencyHz),
            8,
          ),
        );
      }
    }
    expect(confusions.length, confusions.join("; ")).toBeLessThanOrEqual(5);
    expect(median(errors)).toBeLessThan(0.05);
    expect(Math.max(...errors)).toBeLessThan(0.4);
  }, 240_000);
});
