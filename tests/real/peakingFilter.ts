import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";

/** Width of the filter: its neighbours an octave away keep their level within 1 dB or so. */
const QUALITY = 4;

/**
 * The recording with the sound about one frequency raised or lowered: a peaking filter (Bristow-Johnson, Cookbook
 * formulae for audio equalizer biquad filter coefficients).
 */
export function peakingFilter(recording: AudioRecording, centreHz: number, gainDb: number): AudioRecording {
  const gain = 10 ** (gainDb / 40);
  const angle = (2 * Math.PI * centreHz) / recording.sampleRateHz;
  const alpha = Math.sin(angle) / (2 * QUALITY);
  const b0 = 1 + alpha * gain;
  const b1 = -2 * Math.cos(angle);
  const b2 = 1 - alpha * gain;
  const a0 = 1 + alpha / gain;
  const a2 = 1 - alpha / gain;
  const channels = recording.read(0, recording.frameCount).map((samples) => {
    let [x1, x2, y1, y2] = [0, 0, 0, 0];
    return samples.map((x) => {
      const y = (b0 * x + b1 * x1 + b2 * x2 - b1 * y1 - a2 * y2) / a0;
      [x1, x2, y1, y2] = [x, x1, y, y1];
      return y;
    });
  });
  return memoryRecording(channels, recording.sampleRateHz);
}
