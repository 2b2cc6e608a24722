import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";

const WINDOW_SECONDS = 0.06;
const GAP_SECONDS = 0.008;
const FROM_HZ = 70;
const TO_HZ = 1000;
/** What the drone itself may gain in a stroke, as a power ratio (2 dB). */
const OWN_GAIN = 1.6;

/**
 * Power that comes anew below 1 kHz at a moment: lines that were not there before, or that grow by more than a drone does in a stroke.
 *
 * A note that begins has its strongest partials there, a buzz has not; so it tells the two apart.
 */
export function addedBelow(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  seconds: number,
): number {
  const size = nextPowerOfTwo(WINDOW_SECONDS * sampleRateHz);
  const window = hannWindow(size);
  const fft = sharedFft(size);
  const scale = 4 / (size * window.reduce((sum, value) => sum + value * value, 0));
  const powerFrom = (start: number) => {
    const first = Math.round((start - firstSeconds) * sampleRateHz);
    const input = Float64Array.from({ length: size }, (_, i) => window[i] * (samples[first + i] ?? 0));
    const output = new Float64Array(2 * size);
    fft.real(output, input);
    return Float64Array.from(
      { length: size / 2 },
      (_, k) => scale * (output[2 * k] ** 2 + output[2 * k + 1] ** 2),
    );
  };
  const before = powerFrom(seconds - GAP_SECONDS - size / sampleRateHz);
  const after = powerFrom(seconds + GAP_SECONDS);
  let added = 0;
  const last = Math.round((TO_HZ * size) / sampleRateHz);
  for (let k = Math.max(1, Math.round((FROM_HZ * size) / sampleRateHz)); k <= last; k++) {
    // A line that moves a little stays the same line.
    const known = Math.max(before[k - 1], before[k], before[k + 1]);
    added += Math.max(0, after[k] - OWN_GAIN * known);
  }
  return added;
}
