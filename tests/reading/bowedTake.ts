import type { Finding, FindingCode } from "../../src/audio/Finding.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { StringReading } from "../../src/strings/StringReading.js";
import { type BodyResonance, bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { type BowedString, type BowedStringOptions, bowedString } from "../../src/synthesis/bowedString.js";

/** Equal temperament at A4 = 440 Hz: f = 440 * 2^((m - 69) / 12), m the MIDI note number. */
export const NOTE_HZ = {
  C2: 65.4064,
  E2: 82.4069,
  G2: 97.9989,
  C3: 130.8128,
  G3: 195.9977,
  C4: 261.6256,
  D4: 293.6648,
  G4: 391.9954,
  G5: 783.9909,
} as const;

/** An invented sound box: an air mode and two of the top. */
const BODY: readonly BodyResonance[] = [
  { frequencyHz: 110, q: 6, gainDb: 5 },
  { frequencyHz: 265, q: 10, gainDb: 8 },
  { frequencyHz: 520, q: 12, gainDb: 6 },
];
const PAUSE_SECONDS = 1.2;

/** A string by its pitch and what is special about it. */
export interface TakeNote extends Partial<BowedStringOptions> {
  readonly frequencyHz: number;
  /** Strings that sound together with it, from the same moment on. */
  readonly together?: readonly TakeNote[];
}

export interface TakePlan {
  readonly sampleRateHz?: number;
  readonly pauseSeconds?: number;
  /** Standard deviation of the white noise, relative to full scale. */
  readonly noiseDb?: number;
  readonly seed?: number;
}

/** One string of a take: where it begins, and the truth about it. */
export interface PlacedString {
  readonly startSeconds: number;
  readonly string: BowedString;
}

/** A synthesised take with its truth. */
export interface BowedTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly placed: readonly PlacedString[];
}

/** Strings bowed one after another, with pauses before, between and after them, in white noise. */
export function bowedTake(notes: readonly TakeNote[], plan: TakePlan = {}): BowedTake {
  const { sampleRateHz = 16_000, pauseSeconds = PAUSE_SECONDS, noiseDb = -80, seed = 1 } = plan;
  const placed: PlacedString[] = [];
  let seconds = pauseSeconds;
  for (const [i, note] of notes.entries()) {
    const startSeconds = Math.round(seconds * sampleRateHz) / sampleRateHz;
    const all = [note, ...(note.together ?? [])];
    for (const [j, one] of all.entries()) {
      const string = defaultString(one, sampleRateHz, 1000 * seed + 10 * i + j);
      placed.push({ startSeconds, string });
    }
    seconds += Math.max(...all.map(({ durationSeconds = 5 }) => durationSeconds)) + pauseSeconds;
  }
  const samples = whiteNoise(Math.round(seconds * sampleRateHz), noiseDb, seed);
  for (const { startSeconds, string } of placed) {
    addAt(samples, string.samples, Math.round(startSeconds * sampleRateHz));
  }
  return { samples, sampleRateHz, placed };
}

function defaultString(note: TakeNote, sampleRateHz: number, seed: number): BowedString {
  return bowedString({
    durationSeconds: 5,
    sampleRateHz,
    seed,
    partialAmplitudes: bodyAmplitudes(note.frequencyHz, 100, 0.1, BODY, 100),
    swingCents: 1.2,
    swingRateHz: 1.4,
    swingRateSpread: 0.03,
    jitterCents: 0.4,
    levelSwingDb: 0.5,
    ...note,
  });
}

export function whiteNoise(length: number, levelDb: number, seed: number): Float32Array {
  const random = new SeededRandom(seed);
  const deviation = 10 ** (levelDb / 20);
  return Float32Array.from({ length }, () => random.normal(deviation));
}

export function addAt(samples: Float32Array, added: Float32Array, first: number): void {
  for (let i = 0; i < added.length; i++) samples[first + i] += added[i];
}

/** Power of a signal relative to one, in decibels, as a standard deviation. */
export function rms(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
}

export function recordingOf({ samples, sampleRateHz }: BowedTake) {
  return memoryRecording([samples], sampleRateHz);
}

/** What the string's pitch really was over the stretch that a reading was taken from. */
export function realisedHz({ startSeconds, string }: PlacedString, stretch: Stretch): number {
  return string.pitch.meanHz(stretch.startSeconds - startSeconds, stretch.endSeconds - startSeconds);
}

interface Stretch {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** The placed string in whose sound a stretch lies. */
export function placedAt(take: BowedTake, { startSeconds, endSeconds }: Stretch): PlacedString | undefined {
  return take.placed.find(({ startSeconds: from, string }) => {
    const to = from + string.samples.length / take.sampleRateHz;
    return from <= startSeconds && endSeconds <= to;
  });
}

export function stringNamed(reading: TakeReading, name: string): StringReading {
  const string = reading.strings.find((one) => one.name === name);
  if (string === undefined) throw new Error(`no string ${name}`);
  return string;
}

/** All findings that weaken a reading: those of the take and those of its strings. */
export function seriousFindings(reading: TakeReading): Finding[] {
  return [...reading.findings, ...reading.strings.flatMap(({ findings }) => findings)].filter(
    ({ severity }) => severity !== "info",
  );
}

export function codesOf(findings: readonly Finding[]): FindingCode[] {
  return findings.map(({ code }) => code);
}
