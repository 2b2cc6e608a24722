import * as wavefileModule from "wavefile";
import { AnalysisError } from "../errors.js";

// In Node the package is CommonJS and its class sits on the default export; bundlers for a page take its ES
// modules, which have no default export.
const { WaveFile } =
  "default" in wavefileModule ? (wavefileModule.default as typeof wavefileModule) : wavefileModule;

const FULL_SCALE = { "16": 2 ** 15, "24": 2 ** 23 } as const;

function quantised(channel: Float32Array, fullScale: number): Float64Array {
  return Float64Array.from(channel, (sample) =>
    Math.max(-fullScale, Math.min(fullScale - 1, Math.round(sample * fullScale))),
  );
}

/**
 * Writes samples as a WAV file in memory: 16- or 24-bit PCM, or 32-bit floating point (`32f`).
 *
 * Integers are rounded to the nearest step without dither, and limited to full scale; floating point is written as
 * it is. Three or more channels, and 24 bits, come out as WAVE_FORMAT_EXTENSIBLE.
 *
 * @param channels - one array a channel, 1 to 32 of equal length, amplitude +-1 at full scale
 * @param sampleRateHz - sample rate in hertz, a whole number from 8,000 to 384,000
 * @throws AnalysisError `value-out-of-range` for channels and rate, `recording-empty` without samples,
 * `recording-not-finite` for samples that an integer format cannot hold
 * @example
 * ```ts
 * const bytes = encodeWav([new Float32Array(48000)], 48000, "24"); // one second of silence
 * ```
 */
export function encodeWav(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  format: "16" | "24" | "32f",
): Uint8Array {
  requireRange("channelCount", channels.length, 1, 32);
  requireRange("sampleRateHz", sampleRateHz, 8000, 384_000);
  const frameCount = channels[0]!.length;
  if (frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds: 0 });
  for (const channel of channels) requireRange("channel.length", channel.length, frameCount, frameCount);

  let samples: ArrayLike<number>[] = [...channels];
  if (format !== "32f") {
    const nonFiniteCount = channels.reduce(
      (count, channel) => count + channel.filter((sample) => !Number.isFinite(sample)).length,
      0,
    );
    if (nonFiniteCount > 0) throw new AnalysisError("recording-not-finite", { nonFiniteCount });
    samples = channels.map((channel) => quantised(channel, FULL_SCALE[format]));
  }
  const file = new WaveFile();
  file.fromScratch(channels.length, sampleRateHz, format, samples);
  return file.toBuffer();
}

function requireRange(name: string, given: number, allowedMinimum: number, allowedMaximum: number): void {
  if (Number.isInteger(given) && given >= allowedMinimum && given <= allowedMaximum) return;
  throw new AnalysisError("value-out-of-range", { name, given, allowedMinimum, allowedMaximum });
}
