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
  /** How far round the wheel the string is touched: its swings come this much later, in degrees. */
  readonly contactDegrees?: number;
  /** What else of pitch and level comes round: peak amounts at `number` cycles a turn, highest at `degrees` of the turn. */
  readonly pitchHarmonics?: readonly TurnHarmonic[];
  readonly levelHarmonics?: readonly TurnHarmonic[];
  /** Standard deviation of the random level movement, and its correlation time. */
  readonly levelJitterDb?: number;
  readonly levelJitterSeconds?: number;
  /** Strings with the same number are bowed by the same wheel; without it the wheel's course comes from `seed`. */
  readonly wheelSeed?: number;
  /** What else bends the pitch, in cents, at so many seconds from the start: a buzzing bridge, say. */
  readonly bendCents?: (seconds: number) => number;
  /** Time of the fade-in (a raised cosine) at the start, and of the fade-out at the end. */
  readonly attackSeconds?: number;
  readonly releaseSeconds?: number;
}

/** A wave that goes round with the wheel. */
export interface TurnHarmonic {
  readonly number: number;
  readonly amount: number;
  readonly degrees: number;
}

/** A synthesised string and the truth about it. */
export interface BowedString {
  readonly samples: Float32Array;
  readonly pitch: PitchCourse;
  /** Turns of the wheel gone through at each sample. */
  readonly turns: Float64Array;
  /** Movement of the level at each sample, in decibels; null where it does not move. */
  readonly levelDb: Float64Array | null;
}

/**
 * A wheel-bowed string with known truth: a harmonic series whose pitch swings with the wheel and moves at random.
 *
 * All partials follow one phase exactly, as Helmholtz motion makes them do (Cremer, The Physics of the Violin; from
 * memory): partial n has n times the phase of the fundamental plus a constant of its own drawn from the seed.
 */
export function bowedString(options: BowedStringOptions): BowedString {
  const { frequencyHz, sampleRateHz, attackSeconds = 0.1, releaseSeconds = 0.1 } = options;
  const random = new SeededRandom(options.seed);
  const frameCount = Math.round(options.durationSeconds * sampleRateHz);
  const amplitudes = options.partialAmplitudes.filter(
    (_, index) => (index + 1) * frequencyHz < 0.45 * sampleRateHz,
  );
  const cosines = amplitudes.map(() => random.uniform(0, 2 * Math.PI));
  const real = amplitudes.map((amplitude, index) => amplitude * Math.cos(cosines[index]));
  const imaginary = amplitudes.map((amplitude, index) => amplitude * Math.sin(cosines[index]));
  const { deviationCents, wheelPhase, turns } = pitchMovement(options, frameCount, random);
  const levelDb = levelMovement(options, wheelPhase);

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
    samples[i] = sum * fade * (levelDb === null ? 1 : 10 ** (levelDb[i] / 20));
    phaseCycles[i + 1] = phaseCycles[i] + (frequencyHz * 2 ** (deviationCents[i] / 1200)) / sampleRateHz;
  }
  return { samples, pitch: new PitchCourse(frequencyHz, sampleRateHz, phaseCycles), turns, levelDb };
}

function raisedCosine(share: number): number {
  if (!(share < 1)) return 1;
  return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
}

function pitchMovement(options: BowedStringOptions, frameCount: number, random: SeededRandom) {
  const { sampleRateHz, swingCents = 0, swingRateHz = 1.4, swingRateSpread = 0 } = options;
  const { jitterCents = 0, jitterSeconds = 0.05, pitchHarmonics = [], wheelSeed, bendCents } = options;
  const contact = contactRadians(options);
  const crank = wheelSeed === undefined ? random : new SeededRandom(wheelSeed);
  const deviationCents = new Float32Array(frameCount);
  const wheelPhase = new Float32Array(frameCount);
  const turns = new Float64Array(frameCount);
  const jitterKeep = Math.exp(-1 / (jitterSeconds * sampleRateHz));
  const jitterStep = jitterCents * Math.sqrt(1 - jitterKeep * jitterKeep);
  const rateKeep = Math.exp(-1 / (2 * sampleRateHz));
  const rateStep = swingRateSpread * Math.sqrt(1 - rateKeep * rateKeep);
  let jitter = random.normal(jitterCents);
  let rate = crank.normal(swingRateSpread);
  let phase = crank.uniform(0, 2 * Math.PI);
  let whole = 0;
  for (let i = 0; i < frameCount; i++) {
    deviationCents[i] =
      jitter + swingCents * Math.sin(phase - contact) + waves(pitchHarmonics, phase - contact);
    if (bendCents !== undefined) deviationCents[i] += bendCents(i / sampleRateHz);
    wheelPhase[i] = phase;
    turns[i] = whole + phase / (2 * Math.PI);
    phase += (2 * Math.PI * swingRateHz * Math.max(0.1, 1 + rate)) / sampleRateHz;
    if (phase >= 2 * Math.PI) whole++;
    phase %= 2 * Math.PI;
    if (jitterCents > 0) jitter = jitter * jitterKeep + random.normal(jitterStep);
    if (swingRateSpread > 0) rate = rate * rateKeep + crank.normal(rateStep);
  }
  return { deviationCents, wheelPhase, turns };
}

/** Null where the level does not move. */
function levelMovement(options: BowedStringOptions, wheelPhase: Float32Array): Float64Array | null {
  const { sampleRateHz, levelSwingDb = 0, levelHarmonics = [], levelJitterDb = 0 } = options;
  if (levelSwingDb === 0 && levelHarmonics.length === 0 && levelJitterDb === 0) return null;
  const contact = contactRadians(options);
  // A stream of its own, so that pitch and level of a seed don't change with each other.
  const random = new SeededRandom(options.seed ^ 0x5eed);
  const keep = Math.exp(-1 / ((options.levelJitterSeconds ?? 0.2) * sampleRateHz));
  const step = levelJitterDb * Math.sqrt(1 - keep * keep);
  let jitter = random.normal(levelJitterDb);
  return Float64Array.from(wheelPhase, (angle) => {
    const phase = angle - contact;
    const levelDb = jitter + levelSwingDb * Math.cos(phase) + waves(levelHarmonics, phase);
    if (levelJitterDb > 0) jitter = jitter * keep + random.normal(step);
    return levelDb;
  });
}

function contactRadians({ contactDegrees = 0 }: BowedStringOptions): number {
  return (contactDegrees * Math.PI) / 180;
}

function waves(harmonics: readonly TurnHarmonic[], phase: number): number {
  return harmonics.reduce(
    (sum, { number, amount, degrees }) =>
      sum + amount * Math.cos(number * (phase - (degrees * Math.PI) / 180)),
    0,
  );
}
