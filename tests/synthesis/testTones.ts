import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type BowedString, type BowedStringOptions, bowedString } from "../../src/synthesis/bowedString.js";

/** Equal temperament, A4 = 440 Hz (ISO 16:1975): open strings of a hurdy-gurdy and the top of its reach. */
export const NOTES_HZ = {
  C2: 65.4064,
  E2: 82.4069,
  G2: 97.9989,
  C3: 130.8128,
  G3: 195.9977,
  D4: 293.6648,
  G4: 391.9954,
  G5: 783.9909,
} as const;

export const noteCases = Object.entries(NOTES_HZ) as [string, number][];

/** The ideal bowed string: partial n at 1/n of the fundamental (Helmholtz motion), up to 3.6 kHz. */
export function oneOverN(frequencyHz: number, fundamental = 0.2): number[] {
  const count = Math.max(1, Math.floor(3600 / frequencyHz));
  return Array.from({ length: count }, (_, index) => fundamental / (index + 1));
}

/** Adds white noise of the given standard deviation, in place. */
export function addNoise(samples: Float32Array, standardDeviation: number, seed: number): Float32Array {
  const random = new SeededRandom(seed);
  for (let i = 0; i < samples.length; i++) samples[i] += random.normal(standardDeviation);
  return samples;
}

/** A bowed string of 1/n partials at 8 kHz unless told otherwise. */
export function toneOf(
  options: Partial<BowedStringOptions> & { frequencyHz: number; durationSeconds: number },
): BowedString {
  return bowedString({
    sampleRateHz: 8000,
    seed: 1,
    partialAmplitudes: oneOverN(options.frequencyHz),
    ...options,
  });
}

/** A cosine series of constant pitch and chosen phases, with no fades. */
export function steadySeries(
  frequencyHz: number,
  amplitudes: readonly number[],
  phases: readonly number[],
  length: number,
  sampleRateHz: number,
): Float32Array {
  const samples = new Float32Array(length);
  for (let i = 0; i < length; i++) {
    let sum = 0;
    for (let n = 0; n < amplitudes.length; n++) {
      sum += amplitudes[n] * Math.cos((2 * Math.PI * (n + 1) * frequencyHz * i) / sampleRateHz + phases[n]);
    }
    samples[i] = sum;
  }
  return samples;
}
