import { describe, expect, it } from "vitest";
import { readJointly } from "../../src/partials/joint/readJointly.js";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import { EDGE_SECONDS, MIXTURE_RATE_HZ, randomMixture, SEVEN_HZ } from "./mixtureCases.js";

// The way every take is read: which strings sound, and where each is, in one. Trials used the seeds 771,000, 811,000 and
// 913,000: of 2,040 strings 2 were not found and none was more than 0.5 cent off.
const SETS: readonly (readonly [string, readonly number[], readonly [number, number], number])[] = [
  ["C2+G2+C3+G3", [0, 1, 2, 3], [0.5, 2.5], 604_101],
  ["C2+G2+C3+G3+D4+G4", [0, 1, 2, 3, 5, 6], [0.5, 2.5], 604_102],
  ["C3+C4+G4", [2, 4, 6], [0.5, 2.5], 604_103],
  ["C2+G2+C3+G3 with 4 cents of wheel swing", [0, 1, 2, 3], [4, 4], 604_104],
];

describe("readJointly, each string up to 45 cents off its target", () => {
  it.each(SETS)(
    "%s: does not settle on a wrong minimum",
    (_, indices, swingCents, seed) => {
      const random = new SeededRandom(seed);
      const errors: number[] = [];
      let missing = 0;
      for (let k = 0; k < 20; k++) {
        const { samples, seconds, pitches } = randomMixture(
          indices.map((i) => SEVEN_HZ[i]),
          random,
          { swingCents },
        );
        const end = EDGE_SECONDS + seconds;
        const targets = pitches.map((pitch) => pitch.underlyingHz * 2 ** (random.uniform(-45, 45) / 1200));
        const segment = { samples, sampleRateHz: MIXTURE_RATE_HZ, firstSeconds: 0 };
        const { strings } = readJointly(segment, EDGE_SECONDS, end, targets);
        missing += indices.length - strings.length;
        for (const { index, fit } of strings) {
          errors.push(Math.abs(cents(fit.frequencyHz, pitches[index].meanHz(EDGE_SECONDS, end))));
        }
      }
      // 1 in 1,000 was missing in trials.
      expect(missing).toBeLessThanOrEqual(1);
      // The project's bars are 0.3 cent in the median and 0.8 at worst (0.4 and 1.0 at 4 cents of swing); trials gave a tenth.
      expect(median(errors)).toBeLessThan(0.05);
      expect(Math.max(...errors)).toBeLessThan(0.5);
    },
    120_000,
  );
});
