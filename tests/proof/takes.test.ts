import { describe, expect, it } from "vitest";
import { builtInTunings } from "../../src/instrument/builtInTunings.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { cents } from "../../src/units/cents.js";
import {
  bowedTake,
  codesOf,
  placedAt,
  realisedHz,
  recordingOf,
  seriousFindings,
} from "../reading/bowedTake.js";

/** Whole takes of the built-in tunings, drawn at random: strings in any order, each up to 25 cents off. */
const TAKES_PER_TUNING = 5;
const TAKE_MS = 60_000;
const cases = builtInTunings.flatMap((tuning) =>
  Array.from({ length: TAKES_PER_TUNING }, (_, i) => ({ tuning: tuning.name, i })),
);

/** A shuffled order in which equal strings keep theirs. */
function shuffled(targetsHz: readonly number[], random: SeededRandom): number[] {
  const keys = targetsHz.map(() => random.uniform());
  const order = targetsHz.map((_, i) => i).sort((a, b) => keys[a] - keys[b]);
  const next = new Map<number, number>();
  return order.map((i) => {
    const equal = targetsHz.flatMap((hz, j) => (hz === targetsHz[i] ? [j] : []));
    const taken = next.get(targetsHz[i]) ?? 0;
    next.set(targetsHz[i], taken + 1);
    return equal[taken];
  });
}

describe("random takes of the built-in tunings", () => {
  it.each(cases)(
    "$tuning, take $i: every string by its name, its pitch true, no false alarm",
    ({ tuning, i }) => {
      const t = builtInTunings.findIndex(({ name }) => name === tuning);
      const seed = 640_000 + 100 * t + i;
      const random = new SeededRandom(seed);
      const targets = stringTargets(builtInTunings[t]);
      const order = shuffled(
        targets.map(({ targetHz }) => targetHz),
        random,
      );
      const box = [
        { frequencyHz: random.uniform(90, 130), q: 6, gainDb: random.uniform(0, 8) },
        { frequencyHz: random.uniform(240, 300), q: 10, gainDb: 8 },
        { frequencyHz: random.uniform(450, 600), q: 12, gainDb: 6 },
      ];
      const lowestModeHz = random.uniform(80, 160);
      const notes = order.map((string) => {
        const frequencyHz = targets[string].targetHz * 2 ** (random.uniform(-25, 25) / 1200);
        return {
          frequencyHz,
          durationSeconds: random.uniform(3.5, 6),
          partialAmplitudes: bodyAmplitudes(frequencyHz, 100, random.uniform(0.03, 0.2), box, lowestModeHz),
          swingCents: random.uniform(0.5, 3),
          swingRateHz: random.uniform(0.9, 2.2),
          jitterCents: random.uniform(0.2, 0.6),
          jitterSeconds: random.uniform(0.02, 0.15),
          levelSwingDb: random.uniform(0, 1.5),
          attackSeconds: random.uniform(0.05, 0.3),
          releaseSeconds: random.uniform(0.1, 0.6),
        };
      });
      const take = bowedTake(notes, {
        pauseSeconds: random.uniform(0.8, 1.5),
        noiseDb: random.uniform(-95, -65),
        seed,
      });
      const reading = measureTake(recordingOf(take), { targets, a4Hz: 440 });

      for (const [place, string] of order.entries()) {
        const found = reading.strings[string];
        expect(found.status, found.name).toBe("measured");
        expect(found.perPassage, found.name).toHaveLength(1);
        const [passage] = found.perPassage;
        expect(placedAt(take, passage), found.name).toBe(take.placed[place]);
        const error = cents(passage.frequencyHz, realisedHz(take.placed[place], passage));
        // A tenth of a cent is what is asked of clean takes; the generator's own mean is exact to rounding.
        expect(Math.abs(error), found.name).toBeLessThan(0.1);
        // The mean over the attack must not have slipped in: at least the sound less 1.5 s of edges.
        expect(passage.endSeconds - passage.startSeconds).toBeGreaterThan(notes[place].durationSeconds - 1.5);
      }
      expect(codesOf(seriousFindings(reading))).toEqual([]);
    },
    TAKE_MS,
  );
});
