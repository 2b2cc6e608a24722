import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { pitchSteadiness } from "../../src/strings/pitchSteadiness.js";
import { type BowedStringOptions, bowedString } from "../../src/synthesis/bowedString.js";
import { addAt, NOTE_HZ, rms, whiteNoise } from "../reading/bowedTake.js";

/** What is special about one case of a kind. */
export interface CoverageCase extends Partial<BowedStringOptions> {
  /** How far the noise lies below the tone. */
  readonly noiseBelowDb: number;
}

export interface CoverageKind {
  readonly name: string;
  readonly draw: (random: SeededRandom) => CoverageCase;
}

/** Where the truth lay against one interval, all in cents. */
export interface CoverageOutcome {
  readonly halfWidth: number;
  /** Distance of the truth from the middle of the interval. */
  readonly distance: number;
  /** Peak swing found; null where none was claimed. */
  readonly swingCents: number | null;
}

const cranked = (random: SeededRandom) => ({
  durationSeconds: random.uniform(4, 8),
  swingCents: random.uniform(1, 3),
  swingRateHz: random.uniform(0.8, 2.5),
  swingRateSpread: 0.03,
  levelSwingDb: 0.5,
  jitterCents: random.uniform(0.3, 0.5),
  noiseBelowDb: random.uniform(30, 50),
});

/** The kinds of bowing that the interval must be right for. */
export const coverageKinds: readonly CoverageKind[] = [
  {
    name: "wheel swing, jitter 20-50 ms",
    draw: (random) => ({ ...cranked(random), jitterSeconds: random.uniform(0.02, 0.05) }),
  },
  {
    name: "wheel swing, jitter 50-100 ms",
    draw: (random) => ({ ...cranked(random), jitterSeconds: random.uniform(0.05, 0.1) }),
  },
  {
    name: "wheel swing, jitter 100-200 ms",
    draw: (random) => ({ ...cranked(random), jitterSeconds: random.uniform(0.1, 0.2) }),
  },
  {
    name: "very uneven cranking, 3 cents",
    draw: (random) => ({
      ...cranked(random),
      swingCents: 3,
      swingRateSpread: 0.06,
      jitterSeconds: random.uniform(0.02, 0.1),
    }),
  },
  {
    name: "no swing, jitter 20-200 ms",
    draw: (random) => ({ ...cranked(random), swingCents: 0, jitterSeconds: random.uniform(0.02, 0.2) }),
  },
  {
    // Noise decides only in short tones of few partials: see `cleanTone`.
    name: "steady tone, noise 0-10 dB down",
    draw: (random) => ({
      durationSeconds: random.uniform(1.5, 3),
      partialAmplitudes: [0.1, 0.05],
      noiseBelowDb: random.uniform(0, 10),
    }),
  },
];

/**
 * A steady tone of many partials a few seconds long is known far better than the 0.001 cents at which printed intervals
 * end. Counted among the kinds it would only polish the coverage.
 */
export const cleanTone: CoverageKind = {
  name: "steady tone, noise 30-50 dB down",
  draw: (random) => ({ durationSeconds: random.uniform(4, 8), noiseBelowDb: random.uniform(30, 50) }),
};

const SAMPLE_RATE_HZ = 8000;

/** One seeded case: a bowed string of some note, measured, and the interval held against its underlying pitch. */
export function coverageOutcome(kind: CoverageKind, seed: number): CoverageOutcome | null {
  const random = new SeededRandom(seed);
  const notes = Object.values(NOTE_HZ);
  const noteHz = notes[Math.floor(random.uniform(0, notes.length))];
  const frequencyHz = noteHz * 2 ** (random.uniform(-25, 25) / 1200);
  const { noiseBelowDb, ...bowing } = kind.draw(random);
  const durationSeconds = bowing.durationSeconds ?? 6;
  const { samples } = bowedString({
    frequencyHz,
    durationSeconds,
    sampleRateHz: SAMPLE_RATE_HZ,
    seed: seed + 1,
    partialAmplitudes: Array.from({ length: 12 }, (_, n) => 0.1 / (n + 1)),
    ...bowing,
  });
  addAt(samples, whiteNoise(samples.length, 20 * Math.log10(rms(samples)) - noiseBelowDb, seed + 2), 0);
  const startHz = frequencyHz * 2 ** (random.uniform(-4, 4) / 1200);
  const segment = { samples, sampleRateHz: SAMPLE_RATE_HZ, firstSeconds: 0 };
  const fit = fitHarmonics(segment, 0.25, durationSeconds - 0.2, startHz);
  if (fit === null) return null;
  const { interval95Cents, swingCents } = pitchSteadiness(fit);
  if (interval95Cents === null) return null;
  const truth = 1200 * Math.log2(frequencyHz / fit.frequencyHz);
  const [lower, upper] = interval95Cents;
  return {
    halfWidth: (upper - lower) / 2,
    distance: Math.abs(truth - (lower + upper) / 2),
    swingCents,
  };
}
