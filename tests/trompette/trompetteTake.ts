import { lowPassTaps } from "../../src/signal/lowPassTaps.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type BodyResonance, bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { addAt } from "../reading/bowedTake.js";
import { addHarsh } from "./addHarsh.js";
import { type BuzzCarrier, type BuzzKind, buzzCarrier } from "./buzzCarrier.js";
import { convolved, roomResponse } from "./room.js";

/** One stroke of the wrist. */
export interface Stroke {
  /** Where the buzz's amplitude passes half of its rise, if nothing sounds before. */
  readonly onsetSeconds: number;
  /** From there to where the amplitude falls below half. */
  readonly durationSeconds: number;
  /** Power of the buzz over the stroke against the mean power of the string itself. */
  readonly strengthDb: number;
  /** Time of its rise, a raised cosine. */
  readonly attackSeconds: number;
  /** Time constant of the fall. */
  readonly releaseSeconds: number;
}

export interface TrompettePlan {
  readonly seed: number;
  readonly frequencyHz: number;
  readonly strokes: readonly Stroke[];
  readonly kind: BuzzKind;
  readonly dropCents: number;
  readonly startSeconds?: number;
  /** How long the string is bowed. */
  readonly bowedSeconds: number;
  readonly sampleRateHz?: number;
  readonly strength?: number;
  /** How much the string's own level rises in a stroke. */
  readonly kickDb?: number;
  /** How fast the string loses its upper partials: partial n at n^-tilt. */
  readonly tilt?: number;
  readonly turnsPerSecond?: number;
  readonly swingCents?: number;
  readonly levelSwingDb?: number;
  readonly jitterCents?: number;
  readonly drones?: readonly { readonly frequencyHz: number; readonly strength: number }[];
  /** Noise of the microphone below the string, white above 200 Hz and rising below. */
  readonly noiseDb?: number;
  /** Reverberation time, and how far the sound of the room lies under the direct one. */
  readonly reverberationSeconds?: number;
  readonly roomDb?: number;
  /** Wideband noise of the bow, relative to the string, moving in strength by `harshMoveDb`. */
  readonly harshDb?: number;
  readonly harshMoveDb?: number;
  /** Any other sounds, added to the direct sound. */
  readonly others?: (
    samples: Float32Array,
    sampleRateHz: number,
    power: number,
    random: SeededRandom,
  ) => void;
}

/** A take and the truth about it. */
export interface TrompetteTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  /** Where each buzz begins: its first knock that reaches half of its height (see `firstKnock`); of noise, as of the stroke. */
  readonly onsetSeconds: readonly number[];
  /** Where the wheel's stroke does: the amplitude that knocks would have is halfway from what is there before to its peak. */
  readonly strokeSeconds: readonly number[];
  /** Mean pitch of the string where it buzzes and where it does not, hertz. */
  readonly buzzingHz: number;
  readonly silentHz: number;
  /** Mean of what the buzz takes off the pitch within the strokes. */
  readonly dropCents: number;
  readonly turnsPerSecond: number;
  /** Mean power of what each stroke adds above 1 kHz, against that of the string, decibels. */
  readonly strengthDb: readonly number[];
}

const BODY: readonly BodyResonance[] = [
  { frequencyHz: 118, q: 6, gainDb: 6 },
  { frequencyHz: 265, q: 10, gainDb: 8 },
  { frequencyHz: 540, q: 12, gainDb: 6 },
  { frequencyHz: 2400, q: 3, gainDb: 5 },
];

/** A trompette string bowed by a wheel, with its strokes. */
export function trompetteTake(plan: TrompettePlan): TrompetteTake {
  const {
    frequencyHz,
    strokes,
    bowedSeconds,
    sampleRateHz = 32_000,
    strength = 0.05,
    startSeconds = 1,
  } = plan;
  const {
    kickDb = 0,
    tilt = 1.15,
    turnsPerSecond = 1.3,
    swingCents = 1,
    levelSwingDb = 0.6,
    jitterCents = 0.4,
  } = plan;
  const random = new SeededRandom(plan.seed);
  const count = Math.round((startSeconds + bowedSeconds + 0.8) * sampleRateHz);
  const envelope = envelopeOf(strokes, () => 1, count, sampleRateHz);
  // The pitch follows the buzz a little later.
  const lag = Math.round(0.008 * sampleRateHz);
  const bend = (seconds: number) =>
    -plan.dropCents * (envelope[Math.round((startSeconds + seconds) * sampleRateHz) - lag] ?? 0);
  const partialCount = Math.floor((0.45 * sampleRateHz) / frequencyHz);
  const partials = (hz: number, level: number) =>
    bodyAmplitudes(hz, Math.floor((0.45 * sampleRateHz) / hz), level, BODY, 100).map(
      (amplitude, n) => amplitude * (n + 1) ** (1 - tilt),
    );
  const bowed = {
    durationSeconds: bowedSeconds,
    sampleRateHz,
    swingCents,
    swingRateHz: turnsPerSecond,
    swingRateSpread: 0.02,
    jitterCents,
    levelSwingDb,
    levelJitterDb: 0.2,
    attackSeconds: 0.12,
    wheelSeed: plan.seed + 1,
  };
  const string = bowedString({
    ...bowed,
    frequencyHz,
    seed: plan.seed + 2,
    partialAmplitudes: partials(frequencyHz, strength).slice(0, partialCount),
    bendCents: bend,
  });
  const first = Math.round(startSeconds * sampleRateHz);
  const samples = new Float32Array(count);
  const inner = string.samples.subarray(Math.round(0.3 * sampleRateHz), -Math.round(0.3 * sampleRateHz));
  const power = inner.reduce((sum, value) => sum + value * value, 0) / inner.length;
  for (let i = 0; i < string.samples.length; i++) {
    samples[first + i] += string.samples[i] * 10 ** ((kickDb * envelope[first + i]) / 20);
  }
  // Each stroke has its own strength: one carrier of unit power, shaped by all of them.
  const carrier = buzzCarrier(plan, string.pitch, first, count, sampleRateHz, random);
  const strengths = envelopeOf(strokes, ({ strengthDb }) => 10 ** (strengthDb / 20), count, sampleRateHz);
  const buzz = carrier.samples.map((value, i) => value * strengths[i] * Math.sqrt(power));
  const upper = aboveOneKilohertz(buzz, sampleRateHz);
  const strengthDb = strokes.map(({ onsetSeconds, durationSeconds }) => {
    const from = Math.round(onsetSeconds * sampleRateHz);
    const part = upper.subarray(from, Math.round((onsetSeconds + durationSeconds) * sampleRateHz));
    return 10 * Math.log10(part.reduce((sum, value) => sum + value * value, 0) / part.length / power);
  });
  addAt(samples, buzz, 0);
  for (const [d, drone] of (plan.drones ?? []).entries()) {
    const other = bowedString({
      ...bowed,
      frequencyHz: drone.frequencyHz,
      seed: plan.seed + 20 + d,
      partialAmplitudes: partials(drone.frequencyHz, drone.strength),
    });
    addAt(samples, other.samples, first);
  }
  if (plan.harshDb !== undefined) {
    addHarsh(
      samples,
      first,
      string.samples.length,
      power * 10 ** (plan.harshDb / 10),
      plan.harshMoveDb ?? 2,
      sampleRateHz,
      random,
    );
  }
  plan.others?.(samples, sampleRateHz, power, random);
  const wet =
    plan.reverberationSeconds === undefined
      ? samples
      : convolved(
          samples,
          roomResponse(
            plan.reverberationSeconds,
            plan.roomDb ?? -6,
            sampleRateHz,
            new SeededRandom(plan.seed + 3),
          ),
        );
  const noise = Math.sqrt(power * 10 ** ((plan.noiseDb ?? -40) / 10));
  let brown = 0;
  for (let i = 0; i < count; i++) {
    brown = brown * 0.98 + random.normal(0.1 * noise);
    wet[i] += random.normal(0.85 * noise) + brown;
  }
  return {
    samples: wet,
    sampleRateHz,
    onsetSeconds: strokes.map((stroke) => firstKnock(stroke, strengths, carrier, sampleRateHz)),
    strokeSeconds: strokes.map((stroke) => risenAt(stroke, strengths, sampleRateHz).sample / sampleRateHz),
    ...pitchTruth(),
    turnsPerSecond: (string.turns[string.turns.length - 1] - string.turns[0]) / bowedSeconds,
    strengthDb,
  };

  function pitchTruth() {
    const hz = (from: number, to: number) => string.pitch.meanHz(from - startSeconds, to - startSeconds);
    let [buzzing, buzzingSeconds, dropped] = [0, 0, 0];
    const step = 0.001;
    for (const { onsetSeconds, durationSeconds } of strokes) {
      buzzing += hz(onsetSeconds, onsetSeconds + durationSeconds) * durationSeconds;
      buzzingSeconds += durationSeconds;
      for (let t = onsetSeconds; t < onsetSeconds + durationSeconds; t += step) {
        dropped += bend(t - startSeconds) * step;
      }
    }
    let [silent, silentSeconds] = [0, 0];
    for (let t = startSeconds + 0.3; t < startSeconds + bowedSeconds - 0.2; t += 0.01) {
      if (bend(t - startSeconds) < -0.02 * plan.dropCents) continue;
      silent += hz(t - 0.005, t + 0.005) * 0.01;
      silentSeconds += 0.01;
    }
    return {
      buzzingHz: buzzing / buzzingSeconds,
      silentHz: silent / silentSeconds,
      dropCents: dropped / Math.max(1e-9, buzzingSeconds),
    };
  }
}

/** Amplitude of a stroke's buzz at a moment, 0 to 1: a raised cosine up, a slow fall, an exponential end. */
function shape(
  { onsetSeconds, durationSeconds, attackSeconds, releaseSeconds }: Stroke,
  seconds: number,
): number {
  const since = seconds - (onsetSeconds - attackSeconds / 2);
  if (since <= 0) return 0;
  if (since < attackSeconds) return 0.5 - 0.5 * Math.cos((Math.PI * since) / attackSeconds);
  // Falls by a fifth over the stroke, then with its time constant, which takes it from 0.8 to a half in 0.47 of it.
  const left = onsetSeconds + durationSeconds - 0.47 * releaseSeconds - seconds;
  const held = Math.max(1e-6, durationSeconds - attackSeconds / 2 - 0.47 * releaseSeconds);
  if (left > 0) return 1 - 0.2 * Math.min(1, (since - attackSeconds) / held);
  return 0.8 * Math.exp(left / releaseSeconds);
}

function padded(samples: Float32Array, by: number): Float32Array {
  const longer = new Float32Array(samples.length + by);
  longer.set(samples);
  return longer;
}

function aboveOneKilohertz(samples: Float32Array, sampleRateHz: number): Float32Array {
  const taps = Float32Array.from(lowPassTaps(950, 1050, sampleRateHz, 60));
  const low = convolved(padded(samples, taps.length), taps);
  const delay = (taps.length - 1) / 2;
  return samples.map((value, i) => value - low[i + delay]);
}

/** The strongest of all strokes at each sample. */
function envelopeOf(
  strokes: readonly Stroke[],
  strengthOf: (stroke: Stroke) => number,
  count: number,
  sampleRateHz: number,
): Float32Array {
  const envelope = new Float32Array(count);
  for (const stroke of strokes) {
    const { onsetSeconds, durationSeconds, attackSeconds, releaseSeconds } = stroke;
    const strength = strengthOf(stroke);
    const from = Math.max(0, Math.floor((onsetSeconds - attackSeconds) * sampleRateHz));
    const to = Math.min(
      count,
      Math.ceil((onsetSeconds + durationSeconds + 8 * releaseSeconds) * sampleRateHz),
    );
    for (let i = from; i < to; i++) {
      envelope[i] = Math.max(envelope[i], strength * shape(stroke, i / sampleRateHz));
    }
  }
  return envelope;
}

/** Where the envelope is halfway from its lowest about the stroke's begin to the top of its rise, and how high that is. */
function risenAt(
  { onsetSeconds, attackSeconds }: Stroke,
  strengths: Float32Array,
  sampleRateHz: number,
): { readonly lowest: number; readonly sample: number; readonly half: number } {
  const from = Math.round((onsetSeconds - attackSeconds / 2) * sampleRateHz);
  const to = Math.round((onsetSeconds + attackSeconds / 2) * sampleRateHz);
  let lowest = from;
  for (let i = from; i <= to; i++) if (strengths[i] < strengths[lowest]) lowest = i;
  const half = (strengths[lowest] + strengths[to]) / 2;
  let sample = lowest;
  while (sample < to && strengths[sample] < half) sample++;
  return { lowest, sample, half };
}

/**
 * The begin of a buzz: the first knock that is at least as strong as a knock of usual size (root mean square of all) halfway up the
 * rise. How strong a knock is, is the root mean square of its ring, so far as the envelope lets it through. Noise has no knocks: there
 * it is the envelope that counts.
 */
function firstKnock(
  stroke: Stroke,
  strengths: Float32Array,
  { knocks, ring }: BuzzCarrier,
  sampleRateHz: number,
): number {
  const { lowest, sample: risen, half } = risenAt(stroke, strengths, sampleRateHz);
  const usual = Math.sqrt(knocks.reduce((sum, { amount }) => sum + amount ** 2, 0) / knocks.length);
  const whole = ring.reduce((sum, value) => sum + value ** 2, 0);
  const heardAt = (from: number) =>
    Math.sqrt(ring.reduce((sum, value, k) => sum + (value * (strengths[from + k] ?? 0)) ** 2, 0) / whole);
  const first = knocks.find(
    ({ sample, amount }) => sample >= lowest && amount * heardAt(sample) >= half * usual,
  );
  return (first?.sample ?? risen) / sampleRateHz;
}
