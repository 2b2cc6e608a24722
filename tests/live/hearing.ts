import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import type { LiveReading, LiveString } from "../../src/live/LiveReading.js";
import { liveReader } from "../../src/live/liveReader.js";
import type { BowedStringOptions } from "../../src/synthesis/bowedString.js";
import { addAt, bowedTake, whiteNoise } from "../reading/bowedTake.js";

export const RATE = 16_000;
export const soprano = stringTargets(findTuning("soprano"));
const BLOCK_FRAMES = 4096;

/** All readings of some sound, handed over in blocks. */
export function hear(
  channels: readonly Float32Array[],
  sampleRateHz = RATE,
  targets: typeof soprano | null = soprano,
): LiveReading[] {
  const reader = liveReader({ sampleRateHz, channelCount: channels.length, targets, a4Hz: 440 });
  const readings: LiveReading[] = [];
  for (let at = 0; at < channels[0].length; at += BLOCK_FRAMES) {
    readings.push(...reader.push(channels.map((channel) => channel.subarray(at, at + BLOCK_FRAMES))));
  }
  return readings;
}

/** A string as `bowedTake` makes it by default (1.2 cents of swing, 0.4 of jitter), without noise or pause. */
export function bowed(
  frequencyHz: number,
  durationSeconds: number,
  seed: number,
  more: Partial<BowedStringOptions> = {},
): Float32Array {
  const plan = { sampleRateHz: RATE, seed, pauseSeconds: 0, noiseDb: -200 };
  return bowedTake([{ frequencyHz, durationSeconds, ...more }], plan).samples;
}

/** Sounds laid over quiet noise, each from its own moment on. */
export function scene(
  seconds: number,
  sounds: readonly (readonly [atSeconds: number, samples: Float32Array])[],
  seed: number,
  noiseDb = -75,
): Float32Array {
  const samples = whiteNoise(Math.round(seconds * RATE), noiseDb, seed);
  for (const [at, sound] of sounds) addAt(samples, sound, Math.round(at * RATE));
  return samples;
}

export function named(reading: LiveReading, name: string): LiveString {
  const string = reading.strings.find((one) => one.name === name);
  if (string === undefined) throw new Error(`no string ${name}`);
  return string;
}

/** The first reading in which a string sounds. */
export function firstSounding(readings: readonly LiveReading[], name: string): LiveReading | undefined {
  return readings.find((reading) => named(reading, name).status === "sounding");
}

export function between(readings: readonly LiveReading[], from: number, to: number): LiveReading[] {
  return readings.filter(({ seconds }) => seconds >= from && seconds <= to);
}
