import { AnalysisError } from "../errors.js";
import { instrumentRanges } from "../instrument/instrumentRanges.js";
import { LiveEar } from "./LiveEar.js";
import type { LiveOptions, LiveReader } from "./LiveReading.js";

/**
 * Reads strings while they are recorded: about every half second what sounds now, and what was last heard of every string.
 *
 * Blocks of any length come in, as a microphone gives them. They are collected to steps of about an eighth of a second, each channel
 * is decimated as it comes, and the last seconds are kept: 9 s of the analysis band, 60 s of its frame-wise pitch. What
 * sounds with one pitch is read as a passage of a take is (`measurePassage`), over the time in which its pitch is what it is now,
 * 4 s at most (`newestPitch`); several strings by the joint fit, over the last 1.5 to 4 s. The clock is the count of samples.
 *
 * @throws AnalysisError `value-out-of-range` for the sample rate, the number of channels or A4
 * @example
 * ```ts
 * const reader = liveReader({ sampleRateHz: 48000, channelCount: 1, targets, a4Hz: 440 });
 * for (const reading of reader.push([block])) {
 *   reading.strings[0].deviationCents; // -3.2
 * }
 * ```
 */
export function liveReader(options: LiveOptions): LiveReader {
  requireRange("sampleRateHz", options.sampleRateHz, 8000, 384_000);
  requireRange("channelCount", options.channelCount, 1, 32);
  const [lowestHz, highestHz] = instrumentRanges.a4Hz;
  if (!(options.a4Hz >= lowestHz && options.a4Hz <= highestHz)) {
    throw new AnalysisError("value-out-of-range", {
      name: "a4Hz",
      given: options.a4Hz,
      allowedMinimum: lowestHz,
      allowedMaximum: highestHz,
    });
  }
  const ear = new LiveEar(options);
  return {
    push: (channels) => {
      requireRange("channels.length", channels.length, options.channelCount, options.channelCount);
      const [{ length }] = channels;
      for (const channel of channels) requireRange("channel.length", channel.length, length, length);
      return ear.push(channels);
    },
    reading: () => ear.last,
  };
}

function requireRange(name: string, given: number, allowedMinimum: number, allowedMaximum: number): void {
  if (Number.isInteger(given) && given >= allowedMinimum && given <= allowedMaximum) return;
  throw new AnalysisError("value-out-of-range", { name, given, allowedMinimum, allowedMaximum });
}
