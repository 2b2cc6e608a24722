import { SeededRandom } from "../statistics/SeededRandom.js";
import { PitchCourse } from "./PitchCourse.js";

/** How a test string is bowed. Every random part comes from `seed`. */
export interface BowedStringOptions {
  /** The pitch the string has under this cranking: what the mean of an endless take would be. */
  readonly frequencyHz: number;
  readonly durationSeconds: number;
  readonly sampleRateHz: number;
  readonly seed: number;
  /** Peak amplitude of each partial, the fundamental first; partials beyond 45 % of the sample rate are left out. */
  readonly partialAmplitudes: readonly number[];
  /** Peak pitch swing locked to the wheel. */
  readonly swingCents?: number;
  /** Turns of the wheel per second. */
  readonly swingRateHz?: number;
  /** Standard deviation of the wheel's rate as a share of it (the player's uneven cranking), correlated over 2 s. */
  readonly swingRateSpread?: number;
  /** Standard deviation of the random pitch movement. */
  readonly jitterCents?: number;
  /** Correlation time of that movement (a first-order Gauss-Markov process). */
  readonly jitterSeconds?: number;
  /** Peak level swing locked to the wheel. */
  readonly levelSwingDb?: number;
  /** Time of the fade-in (a raised cosine) at the start, and of the fade-out at the end. */
  readonly attackSeconds?: number;
  readonly releaseSeconds?: number;
}

/** A synthesised string and the truth about it. */
export interface BowedString {
  readonly samples: Float32Array;
  readonly pitch: PitchCourse;
}

/**
 * A wheel-bowed string with known truth: a harmonic series whose pitch swings with the wheel and moves at random.
 *
 * All partials follow one phase exactly, as Helmholtz motion makes them do (Cremer, The Physics of the Violin; from
 * memory): partial n has n times the phase of the fundamental plus a constant of its own drawn from the seed.
 */
export function bowedString(options: BowedStringOptions): BowedString {
  const { frequencyHz, sampleRateHz, levelSwingDb = 0, attackSeconds = 0.1, releaseSeconds = 0.1 } = options;
  const random = new SeededRandom(options.seed);
  const frameCount = Math.round(options.durationSeconds * sampleRateHz);
  const amplitudes = options.partialAmplitudes.filter(
    (_, index) => (index + 1) * frequencyHz < 0.45 * sampleRateHz,
  );
  const cosines = amplitudes.map(() => random.uniform(0, 2 * Math.PI));
  const real = amplitudes.map((amplitude, index) => amplitude * Math.cos(cosines[index]));
  const imaginary = amplitudes.map((amplitude, index) => amplitude * Math.sin(cosines[index]));
  const { deviationCents, wheelPhase } = pitchMovement(options, frameCount, random);

  const samples = new Float32Array(frameCount);
  const phaseCycles = new Float64Array(frameCount + 1);
  for (let i = 0; i < frameCount; i++) {
    const angle = 2 * Math.PI * (phaseCycles[i] % 1);
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    let powerReal = c;
    let powerImaginary = s;
    let sum = 0;
    for (let n = 0; n < real.length; n++) {
      sum += real[n] * powerReal - imaginary[n] * powerImaginary;
      const next = powerReal * c - powerImaginary * s;
      powerImaginary = powerReal * s + powerImaginary * c;
      powerReal = next;
    }
    const seconds = i / sampleRateHz;
    const left = options.durationSeconds - seconds;
    const fade = raisedCosine(seconds / attackSeconds) * raisedCosine(left / releaseSeconds);
    const swing = levelSwingDb === 0 ? 1 : 10 ** ((levelSwingDb / 20) * Math.cos(wheelPhase[i]));
    samples[i] = sum * fade * swing;
    phaseCycles[i + 1] = phaseCycles[i] + (frequencyHz * 2 ** (deviationCents[i] / 1200)) / sampleRateHz;
  }
  return { samples, pitch: new PitchCourse(frequencyHz, sampleRateHz, phaseCycles) };
}

function raisedCosine(share: number): number {
  if (!(share < 1)) return 1;
  return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
}

function pitchMovement(options: BowedStringOptions, frameCount: number, random: SeededRandom) {
  const { sampleRateHz, swingCents = 0, swingRateHz = 1.4, swingRateSpread = 0 } = options;
  const { jitterCents = 0, jitterSeconds = 0.05 } = options;
  const deviationCents = new Float32Array(frameCount);
  const wheelPhase = new Float32Array(frameCount);
  const jitterKeep = Math.exp(-1 / (jitterSeconds * sampleRateHz));
  const jitterStep = jitterCents * Math.sqrt(1 - jitterKeep * jitterKeep);
  const rateKeep = Math.exp(-1 / (2 * sampleRateHz));
  const rateStep = swingRateSpread * Math.sqrt(1 - rateKeep * rateKeep);
  let jitter = random.normal(jitterCents);
  let rate = random.normal(swingRateSpread);
  let phase = random.uniform(0, 2 * Math.PI);
  for (let i = 0; i < frameCount; i++) {
    deviationCents[i] = jitter + swingCents * Math.sin(phase);
    wheelPhase[i] = phase;
    phase = (phase + (2 * Math.PI * swingRateHz * Math.max(0.1, 1 + rate)) / sampleRateHz) % (2 * Math.PI);
    if (jitterCents > 0) jitter = jitter * jitterKeep + random.normal(jitterStep);
    if (swingRateSpread > 0) rate = rate * rateKeep + random.normal(rateStep);
  }
  return { deviationCents, wheelPhase };
}
