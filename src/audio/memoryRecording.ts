import type { AudioRecording } from "./AudioRecording.js";

/**
 * Wraps samples that are already in memory as a recording.
 *
 * @param channels - one array a channel, equal lengths, amplitude +-1 at full scale
 * @param sampleRateHz - sample rate in hertz
 * @example
 * ```ts
 * const oneSecondOfSilence = memoryRecording([new Float32Array(48000)], 48000);
 * ```
 */
export function memoryRecording(channels: readonly Float32Array[], sampleRateHz: number): AudioRecording {
  const frameCount = channels.length === 0 ? 0 : Math.min(...channels.map((channel) => channel.length));
  return {
    sampleRateHz,
    channelCount: channels.length,
    frameCount,
    durationSeconds: frameCount / sampleRateHz,
    decodingNotes: [],
    read: (startFrame, count) => {
      const start = Math.max(0, startFrame);
      return channels.map((channel) => channel.subarray(start, Math.min(frameCount, startFrame + count)));
    },
  };
}
