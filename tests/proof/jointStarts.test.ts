import { describe, expect, it } from "vitest";
import { readJointly } from "../../src/partials/joint/readJointly.js";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import { EDGE_SECONDS, MIXTURE_RATE_HZ, randomMixture, SEVEN_HZ } from "./mixtureCases.js";

const [C2, G2, C3, G3, C4, D4, G4] = SEVEN_HZ;
const STARTS_PER_MIXTURE = 5;
const MIXTURES = 25;

// None of these seeds was used while the joint fit was developed. 8 sets of 25 mixtures and 5 starts: 1,000 starts.
const SETS: readonly (readonly [string, readonly number[], number])[] = [
  ["C2+G2+C3+G3", [C2, G2, C3, G3], 7301],
  ["G2+D4+G4", [G2, D4, G4], 7302],
  ["C2+C3", [C2, C3], 7303],
  ["C3+C4", [C3, C4], 7304],
  ["G3+G4", [G3, G4], 7305],
  ["G4+G4, 1 to 5 cents apart", [G4, G4], 7306],
  ["G3+G3, 1 to 5 cents apart", [G3, G3], 7307],
  ["G2+C3+G4+G4, the last two 1 to 5 cents apart", [G2, C3, G4, G4], 7308],
];

// As every take is read: no string is named, and it must find them all.
describe("readJointly, from 1,000 random starts up to 45 cents off", () => {
  it.each(SETS)(
    "%s: does not settle on a wrong minimum",
    (name, nominalHz, seed) => {
      const random = new SeededRandom(seed);
      const errors: number[] = [];
      const missed = new Set<number>();
      for (let m = 0; m < MIXTURES; m++) {
        const { samples, seconds, pitches } = randomMixture(nominalHz, random, { swingCents: [0.5, 2.5] });
        const segment = { samples, sampleRateHz: MIXTURE_RATE_HZ, firstSeconds: 0 };
        const end = EDGE_SECONDS + seconds;
        // Which of two strings of one note is which can't be heard: both lists go by pitch.
        const truth = pitches.map((pitch) => pitch.meanHz(EDGE_SECONDS, end)).sort((a, b) => a - b);
        for (let s = 0; s < STARTS_PER_MIXTURE; s++) {
          // Strings of one note set out from one start, as from one target.
          const offsets = new Map(nominalHz.map((hz) => [hz, random.uniform(-45, 45)]));
          const starts = pitches.map(
            (_pitch, i) =>
              pitches[nominalHz.indexOf(nominalHz[i])].underlyingHz *
              2 ** ((offsets.get(nominalHz[i]) ?? 0) / 1200),
          );
          const { strings } = readJointly(segment, EDGE_SECONDS, end, starts);
          if (strings.length < nominalHz.length) {
            missed.add(m);
            continue;
          }
          const found = strings.map(({ fit }) => fit.frequencyHz).sort((a, b) => a - b);
          errors.push(...found.map((hz, i) => Math.abs(cents(hz, truth[i]))));
        }
      }
      console.log(
        `${name}: all found in ${MIXTURES - missed.size} of ${MIXTURES} mixtures, median ${median(errors).toFixed(4)}, worst ${Math.max(...errors).toFixed(3)} cents`,
      );
      // Two of one note, 1.8 cents apart, are read as one in a mixture of these, from whatever start; nothing else is missed.
      const isUnison = new Set(nominalHz).size < nominalHz.length;
      expect(missed.size).toBeLessThanOrEqual(isUnison ? 1 : 0);
      // The project's bars are 0.3 cent in the median and 0.8 at worst; a wrong minimum lies half a cent off or more.
      // Held closer to what the fit does (0.003, 0.1), so that a change for the worse shows.
      expect(median(errors)).toBeLessThan(0.02);
      expect(Math.max(...errors)).toBeLessThan(0.4);
    },
    240_000,
  );
});
