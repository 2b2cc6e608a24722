import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import type { PitchCourse } from "../../src/synthesis/PitchCourse.js";

/** Seven strings of an alto with its trompette, at A4 = 440 Hz (equal temperament). */
export const SEVEN_HZ: readonly number[] = [
  65.4064, 97.9989, 130.8128, 195.9977, 261.6256, 293.6648, 391.9954,
];
export const SEVEN_NAMES: readonly string[] = ["C2", "G2", "C3", "G3", "C4", "D4", "G4"];
export const MIXTURE_RATE_HZ = 8000;
/** Room before and after the passage. */
export const EDGE_SECONDS = 0.2;

/** Several strings at once, with the truth about each. */
export interface Mixture {
  readonly samples: Float32Array;
  readonly seconds: number;
  readonly pitches: readonly PitchCourse[];
}

export interface MixturePlan {
  readonly swingCents: readonly [number, number];
  /** Standard deviation of the wheel's rate as a share of it; 0 where not given. */
  readonly swingRateSpread?: number;
}

/**
 * Random mistuning to 15 cents, relative levels to 8 dB, wheel swing of one rate and a phase for each string, 0.4 cent of
 * jitter, another body each time, noise 30 to 45 dB down, 6 to 10 s. Partials that all but coincide, so that no method
 * could part them (under 1.5 cycles at the highest shared partial), are drawn again. A nominal frequency that comes twice
 * gives two strings 1 to 5 cents apart.
 */
export function randomMixture(
  nominalHz: readonly number[],
  random: SeededRandom,
  plan: MixturePlan,
): Mixture {
  const seconds = random.uniform(6, 10);
  const swingRateHz = random.uniform(1, 2);
  const frequencies = drawApart(nominalHz, random, seconds);
  const samples = new Float32Array(Math.round((seconds + 2 * EDGE_SECONDS) * MIXTURE_RATE_HZ));
  const body = [
    { frequencyHz: random.uniform(90, 130), q: 6, gainDb: 6 },
    { frequencyHz: random.uniform(240, 300), q: 10, gainDb: 8 },
    { frequencyHz: 540, q: 12, gainDb: 6 },
  ];
  const pitches = frequencies.map((frequencyHz) => {
    const string = bowedString({
      frequencyHz,
      durationSeconds: seconds + 2 * EDGE_SECONDS,
      sampleRateHz: MIXTURE_RATE_HZ,
      seed: Math.floor(random.uniform(0, 1e9)),
      partialAmplitudes: bodyAmplitudes(frequencyHz, 60, 0.1 * 10 ** (random.uniform(-8, 8) / 20), body, 100),
      swingCents: random.uniform(...plan.swingCents),
      swingRateHz,
      swingRateSpread: plan.swingRateSpread ?? 0,
      jitterCents: 0.4,
      levelSwingDb: 0.5,
    });
    for (let i = 0; i < samples.length; i++) samples[i] += string.samples[i];
    return string.pitch;
  });
  const power = samples.reduce((sum, value) => sum + value * value, 0) / samples.length;
  const noise = Math.sqrt(power) * 10 ** (-random.uniform(30, 45) / 20);
  for (let i = 0; i < samples.length; i++) samples[i] += random.normal(noise);
  return { samples, seconds, pitches };
}

function drawApart(nominalHz: readonly number[], random: SeededRandom, seconds: number): number[] {
  for (;;) {
    const drawn: number[] = [];
    for (const [i, hz] of nominalHz.entries()) {
      const twin = nominalHz.indexOf(hz);
      const way = random.uniform() < 0.5 ? -1 : 1;
      drawn.push(
        twin < i
          ? drawn[twin] * 2 ** ((way * random.uniform(1, 5)) / 1200)
          : hz * 2 ** (random.uniform(-15, 15) / 1200),
      );
    }
    if (drawn.every((a, i) => drawn.slice(i + 1).every((b) => areApart(a, b, seconds)))) return drawn;
  }
}

function areApart(lowHz: number, highHz: number, seconds: number): boolean {
  // Unisons are 1 cent apart or more: 1.7 Hz at the highest partials, 10 cycles in 6 s.
  if (Math.abs(1200 * Math.log2(highHz / lowHz)) < 6) return true;
  for (let p = 1; p <= 12; p++) {
    for (let q = 1; q <= 4; q++) {
      const apartHz = Math.abs(p * lowHz - q * highHz);
      if (apartHz < 9 && Math.floor(2900 / (p * lowHz)) * apartHz * seconds < 1.5) return false;
    }
  }
  return true;
}
