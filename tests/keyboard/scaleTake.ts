import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type BodyResonance, bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { addAt, whiteNoise } from "../reading/bowedTake.js";
import { buzzing } from "./buzzing.js";

/** One key of a scale, in the order in which they are played; key 0 is the open string. */
export interface PlayedKey {
  readonly key: number;
  readonly seconds: number;
}

/** A string that sounds throughout. */
export interface PlayedDrone {
  readonly frequencyHz: number;
  readonly strength: number;
  /** So many times a second the dog of a trompette buzzes (`buzzing`). */
  readonly buzzesPerSecond?: number;
}

export interface ScalePlan {
  readonly openHz: number;
  readonly played: readonly PlayedKey[];
  /** Cents of each key over the open string. */
  readonly centsOfKey: (key: number) => number;
  readonly seed: number;
  readonly swingCents?: number;
  readonly swingRateHz?: number;
  /** Standard deviation of the wheel's rate as a share of it, correlated over 2 s. */
  readonly swingRateSpread?: number;
  readonly jitterCents?: number;
  readonly jitterSeconds?: number;
  readonly levelSwingDb?: number;
  readonly body?: readonly BodyResonance[];
  readonly strength?: number;
  /** Strings that sound throughout. */
  readonly drones?: readonly PlayedDrone[];
  /** Keys in which noise lies between the partials: so far below the note, in dB. */
  readonly harshKeysDb?: Readonly<Record<number, number>>;
  /** Keys that move about besides, as loose tangents may: standard deviation in cents, correlated over 0.1 s. */
  readonly unsteadyKeysCents?: Readonly<Record<number, number>>;
  /** White noise, relative to full scale. */
  readonly noiseDb?: number;
  readonly sampleRateHz?: number;
  /** A second string stopped by the same keys: its open pitch, and what its keys are off those of the first. */
  readonly along?: { readonly openHz: number; readonly strength: number };
}

/** One note of the scale and the truth about it. */
export interface PlacedNote {
  readonly key: number;
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Pitch of the key under this cranking. */
  readonly underlyingHz: number;
}

export interface ScaleTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly notes: readonly PlacedNote[];
  /** Mean pitch in hertz between two times, with the swing of the wheel in it or without. */
  meanHz(startSeconds: number, endSeconds: number, withSwing: boolean): number;
}

const BODY: readonly BodyResonance[] = [
  { frequencyHz: 118, q: 6, gainDb: 6 },
  { frequencyHz: 265, q: 10, gainDb: 8 },
  { frequencyHz: 540, q: 12, gainDb: 6 },
];
const EDGE_SECONDS = 0.6;
/** A tangent takes the string over in about this time. */
const GLIDE_SECONDS = 0.03;
const SLACK_SECONDS = 0.1;

/** A scale played legato on one string: the pitch goes over from key to key, the wheel never stops. */
export function scaleTake(plan: ScalePlan): ScaleTake {
  const { sampleRateHz = 8000, noiseDb = -70, swingCents = 1.5, swingRateHz = 1.4, jitterCents = 0.4 } = plan;
  const {
    swingRateSpread = 0.02,
    jitterSeconds = 0.05,
    levelSwingDb = 0.5,
    strength = 0.1,
    body = BODY,
  } = plan;
  const random = new SeededRandom(plan.seed);
  let at = EDGE_SECONDS;
  const notes = plan.played.map(({ key, seconds }): PlacedNote => {
    const startSeconds = at;
    at += seconds;
    return {
      key,
      startSeconds,
      endSeconds: at,
      underlyingHz: plan.openHz * 2 ** (plan.centsOfKey(key) / 1200),
    };
  });
  const count = Math.round((at + EDGE_SECONDS) * sampleRateHz);
  const samples = whiteNoise(count, noiseDb, plan.seed + 1);
  const first = Math.round(EDGE_SECONDS * sampleRateHz);
  const last = Math.round(at * sampleRateHz);
  const moved = movement(count);
  const slack = slackCents(plan, notes, count, sampleRateHz);
  // Cents over the open string gone through so far, without and with the swing.
  const plain = new Float64Array(count + 1);
  const swung = new Float64Array(count + 1);
  const strings = [{ openHz: plan.openHz, strength }, ...(plan.along === undefined ? [] : [plan.along])];
  for (const [s, string] of strings.entries()) {
    const partials = Math.floor(3000 / string.openHz);
    const phases = Array.from({ length: partials }, () => random.uniform(0, 2 * Math.PI));
    const amplitudes = notes.map(({ underlyingHz }) => {
      const hz = (underlyingHz * string.openHz) / plan.openHz;
      return bodyAmplitudes(hz, Math.min(partials, Math.floor(3500 / hz)), string.strength, body, 100);
    });
    let cycles = 0;
    let note = 0;
    for (let i = 0; i < count; i++) {
      const seconds = i / sampleRateHz;
      while (note + 1 < notes.length && seconds >= notes[note + 1].startSeconds) note++;
      const before = notes[Math.max(0, note - 1)];
      const share = raisedCosine((seconds - notes[note].startSeconds) / GLIDE_SECONDS);
      const from = plan.centsOfKey(before.key);
      const keyCents = from + share * (plan.centsOfKey(notes[note].key) - from);
      if (s === 0) {
        plain[i + 1] = plain[i] + keyCents + moved.jitter[i] + slack[i];
        swung[i + 1] = swung[i] + keyCents + moved.jitter[i] + moved.swing[i] + slack[i];
      }
      const overOpen = keyCents + moved.jitter[i] + moved.swing[i] + slack[i];
      cycles += (string.openHz * 2 ** (overOpen / 1200)) / sampleRateHz;
      if (i < first || i >= last) continue;
      const fade =
        raisedCosine((i - first) / (0.08 * sampleRateHz)) * raisedCosine((last - i) / (0.08 * sampleRateHz));
      const level = fade * 10 ** ((levelSwingDb / 20) * Math.cos(moved.phase[i]));
      const old = amplitudes[Math.max(0, note - 1)];
      const now = amplitudes[note];
      const angle = 2 * Math.PI * (cycles % 1);
      for (let n = 0; n < Math.max(old.length, now.length); n++) {
        const amplitude = (1 - share) * (old[n] ?? 0) + share * (now[n] ?? 0);
        if (amplitude > 0) samples[i] += level * amplitude * Math.cos((n + 1) * angle + phases[n]);
      }
    }
  }
  for (const [d, drone] of (plan.drones ?? []).entries()) {
    const string = bowedString({
      frequencyHz: drone.frequencyHz,
      durationSeconds: (last - first) / sampleRateHz,
      sampleRateHz,
      seed: plan.seed + 10 + d,
      partialAmplitudes: bodyAmplitudes(drone.frequencyHz, 45, drone.strength, body, 100),
      swingCents: swingCents * 0.7,
      swingRateHz,
      swingRateSpread,
      jitterCents,
      jitterSeconds,
      levelSwingDb,
    });
    const { buzzesPerSecond } = drone;
    addAt(
      samples,
      buzzesPerSecond === undefined
        ? string.samples
        : buzzing(string.samples, sampleRateHz, buzzesPerSecond, plan.seed + 20 + d),
      first,
    );
  }
  addHarshness(samples, plan, notes, sampleRateHz);
  return {
    samples,
    sampleRateHz,
    notes,
    meanHz: (startSeconds, endSeconds, withSwing) => {
      const sums = withSwing ? swung : plain;
      const a = Math.round(startSeconds * sampleRateHz);
      const b = Math.round(endSeconds * sampleRateHz);
      return plan.openHz * 2 ** ((sums[b] - sums[a]) / (b - a) / 1200);
    },
  };

  function movement(length: number) {
    const jitter = new Float64Array(length);
    const swing = new Float64Array(length);
    const phase = new Float64Array(length);
    const keep = Math.exp(-1 / (jitterSeconds * sampleRateHz));
    const rateKeep = Math.exp(-1 / (2 * sampleRateHz));
    let j = random.normal(jitterCents);
    let rate = random.normal(swingRateSpread);
    let angle = random.uniform(0, 2 * Math.PI);
    for (let i = 0; i < length; i++) {
      jitter[i] = j;
      swing[i] = swingCents * Math.sin(angle);
      phase[i] = angle;
      angle += (2 * Math.PI * swingRateHz * Math.max(0.1, 1 + rate)) / sampleRateHz;
      j = j * keep + random.normal(jitterCents * Math.sqrt(1 - keep * keep));
      rate = rate * rateKeep + random.normal(swingRateSpread * Math.sqrt(1 - rateKeep * rateKeep));
    }
    return { jitter, swing, phase };
  }
}

/** What the keys that are unsteady move besides, in cents at every sample. */
function slackCents(
  { unsteadyKeysCents, seed }: ScalePlan,
  notes: readonly PlacedNote[],
  count: number,
  sampleRateHz: number,
): Float64Array {
  const slack = new Float64Array(count);
  if (unsteadyKeysCents === undefined) return slack;
  const random = new SeededRandom(seed + 3);
  const keep = Math.exp(-1 / (SLACK_SECONDS * sampleRateHz));
  for (const { key, startSeconds, endSeconds } of notes) {
    const sd = unsteadyKeysCents[key] ?? 0;
    let value = random.normal(sd);
    for (let i = Math.round(startSeconds * sampleRateHz); i < endSeconds * sampleRateHz && i < count; i++) {
      slack[i] = value;
      value = value * keep + random.normal(sd * Math.sqrt(1 - keep * keep));
    }
  }
  return slack;
}

function addHarshness(
  samples: Float32Array,
  { harshKeysDb, seed }: ScalePlan,
  notes: readonly PlacedNote[],
  sampleRateHz: number,
): void {
  for (const [n, { key, startSeconds, endSeconds }] of notes.entries()) {
    const below = harshKeysDb?.[key];
    if (below === undefined) continue;
    const from = Math.round(startSeconds * sampleRateHz);
    const own = samples.subarray(from, Math.round(endSeconds * sampleRateHz));
    const power = own.reduce((sum, value) => sum + value * value, 0) / own.length;
    addAt(samples, whiteNoise(own.length, 10 * Math.log10(2 * power) - below, seed + 40 + n), from);
  }
}

function raisedCosine(share: number): number {
  if (share >= 1) return 1;
  return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
}
