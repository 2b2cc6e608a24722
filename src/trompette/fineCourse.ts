import type { AudioRecording } from "../audio/AudioRecording.js";
import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";
import type { Band } from "./BandCourse.js";

/** The upper bands about one moment, in frames so short that single knocks stand apart. */
export interface FineCourse {
  /** Frame k is centred on `firstSeconds + k * FINE_HOP_SECONDS`. */
  readonly firstSeconds: number;
  /** Indexed [band][frame], mean of the channels, in any unit. */
  readonly power: readonly Float64Array[];
}

/** From frame to frame. */
export const FINE_HOP_SECONDS = 0.0005;
/** A knock rings for 1 to 3 ms. */
const FRAME_SECONDS = 0.003;

/**
 * Power of the bands every half millisecond of a short stretch.
 *
 * The samples are differenced twice first (12 dB an octave): frames this short leak 30 dB down from far away, and the low partials of a
 * string are stronger than the bands by more than that.
 *
 * @param firstSeconds - from here ...
 * @param lastSeconds - ... to before here; what lies outside the recording counts as silence
 */
export function fineCourse(
  recording: AudioRecording,
  bands: readonly Pick<Band, "fromHz" | "toHz">[],
  firstSeconds: number,
  lastSeconds: number,
): FineCourse {
  const { sampleRateHz } = recording;
  const length = Math.round(FRAME_SECONDS * sampleRateHz);
  const size = nextPowerOfTwo(length);
  const fft = sharedFft(size);
  const window = hannWindow(length);
  const count = Math.max(0, Math.round((lastSeconds - firstSeconds) / FINE_HOP_SECONDS));
  const power = bands.map(() => new Float64Array(count));
  const bins = bands.map(({ fromHz, toHz }) => {
    const from = Math.max(1, Math.round((fromHz * size) / sampleRateHz));
    return [from, Math.max(from + 1, Math.round((toHz * size) / sampleRateHz))] as const;
  });
  // Two samples more than the first frame holds, to difference.
  const start = Math.round(firstSeconds * sampleRateHz - length / 2) - 2;
  const read = Math.max(0, start);
  const samples = Math.ceil(count * FINE_HOP_SECONDS * sampleRateHz) + length + 4;
  const input = new Float64Array(size);
  const output = new Float64Array(2 * size);
  for (const channel of recording.read(read, samples)) {
    const at = (i: number) => {
      const value = channel[i - read] ?? 0;
      return Number.isFinite(value) ? value : 0;
    };
    for (let k = 0; k < count; k++) {
      const from = Math.round((firstSeconds + k * FINE_HOP_SECONDS) * sampleRateHz - length / 2);
      for (let i = 0; i < length; i++) {
        const here = from + i;
        input[i] = window[i] * (at(here) - 2 * at(here - 1) + at(here - 2));
      }
      fft.real(output, input);
      for (const [b, [first, last]] of bins.entries()) {
        for (let j = first; j < last; j++) power[b][k] += output[2 * j] ** 2 + output[2 * j + 1] ** 2;
      }
    }
  }
  return { firstSeconds, power };
}
