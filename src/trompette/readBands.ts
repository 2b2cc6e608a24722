import type { AudioRecording } from "../audio/AudioRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";
import type { BandCourse } from "./BandCourse.js";

/** Below this the string's own strong partials leave nothing of a buzz to be seen. */
export const BUZZ_FROM_HZ = 1000;
/** Above this microphones and rooms differ too much to count. */
const BUZZ_TO_HZ = 12_000;
const BANDS_PER_OCTAVE = 2;
const TOP_SHARE = 0.46;
const LEAST_BAND_RATIO = 1.15;
const LOWER_FROM_HZ = 40;
/** The bow takes hold, and the string dies away. */
const SETTLING_SECONDS = 0.3;
const ENDING_SECONDS = 0.12;
const HOP_SECONDS = 0.002;
/**
 * Length of a frame in periods of the string: a Hann window this long has its zeros on the string's own rate and on half of it, so
 * that knocks once a period or every second period leave an even course.
 */
const PERIODS = 4;
const FRAME_RANGE_SECONDS = [0.012, 0.032] as const;
/** Recordings are read in pieces of this many frames. */
const PIECE_FRAMES = 1 << 17;

/**
 * Power of the upper half-octave bands of a stretch every 2 ms, mean of the channels (channels are never added).
 *
 * @param stretches - where strings sound, in order of time, at least one
 * @param stringHz - pitch of the string, which decides how long a frame is
 * @returns no bands for a recording that ends below 1.4 kHz
 */
export function readBands(
  recording: AudioRecording,
  stretches: readonly TimeSpan[],
  stringHz: number,
): BandCourse {
  const firstSeconds = stretches[0].startSeconds;
  const lastSeconds = stretches[stretches.length - 1].endSeconds;
  const { sampleRateHz, channelCount } = recording;
  const [shortest, longest] = FRAME_RANGE_SECONDS;
  let frameSeconds = PERIODS / stringHz;
  while (frameSeconds > longest) frameSeconds /= 2;
  const length = Math.round(Math.max(shortest, frameSeconds) * sampleRateHz);
  const size = nextPowerOfTwo(length);
  const fft = sharedFft(size);
  const window = hannWindow(length);
  const edges = bandEdgesHz(TOP_SHARE * sampleRateHz);
  const count = Math.max(0, Math.floor((lastSeconds - firstSeconds) / HOP_SECONDS) + 1);
  const bands = edges.slice(1).map((toHz, b) => ({ fromHz: edges[b], toHz, power: new Float64Array(count) }));
  const lowerPower = new Float64Array(count);
  const lowest = Math.round((LOWER_FROM_HZ * size) / sampleRateHz);
  const bins = edges.map((hz) => Math.round((hz * size) / sampleRateHz));
  const input = new Float64Array(size);
  const output = new Float64Array(2 * size);
  // A sine of amplitude a has power a * a: the window's own power is taken out.
  const scale = 4 / (channelCount * size * window.reduce((sum, value) => sum + value * value, 0));
  let held = recording.read(0, 0);
  let heldFrom = 0;
  for (let m = 0; m < count; m++) {
    const from = Math.round((firstSeconds + m * HOP_SECONDS) * sampleRateHz - length / 2);
    const heldTo = heldFrom + (held[0]?.length ?? 0);
    if (from < heldFrom || (from + length > heldTo && heldTo < recording.frameCount)) {
      heldFrom = Math.max(0, from);
      held = recording.read(heldFrom, PIECE_FRAMES);
    }
    for (const channel of held) {
      for (let i = 0; i < length; i++) {
        const value = channel[from - heldFrom + i] ?? 0;
        input[i] = Number.isFinite(value) ? window[i] * value : 0;
      }
      fft.real(output, input);
      for (const [b, band] of bands.entries()) {
        let sum = 0;
        for (let k = bins[b]; k < bins[b + 1]; k++) sum += output[2 * k] ** 2 + output[2 * k + 1] ** 2;
        band.power[m] += sum * scale;
      }
      let lower = 0;
      for (let k = lowest; k < bins[0]; k++) lower += output[2 * k] ** 2 + output[2 * k + 1] ** 2;
      lowerPower[m] += lower * scale;
    }
  }
  const isHeard = new Uint8Array(count);
  for (const { startSeconds, endSeconds } of stretches) {
    const from = Math.round((startSeconds + SETTLING_SECONDS - firstSeconds) / HOP_SECONDS);
    isHeard.fill(
      1,
      from,
      Math.max(from, Math.round((endSeconds - ENDING_SECONDS - firstSeconds) / HOP_SECONDS)),
    );
  }
  return {
    firstSeconds,
    hopSeconds: HOP_SECONDS,
    frameSeconds: length / sampleRateHz,
    count,
    bands,
    lowerPower,
    isHeard,
  };
}

function bandEdgesHz(topHz: number): number[] {
  const edges = [BUZZ_FROM_HZ];
  for (;;) {
    const last = edges[edges.length - 1];
    const next = last * 2 ** (1 / BANDS_PER_OCTAVE);
    const top = Math.min(topHz, BUZZ_TO_HZ);
    if (next > top) return top > LEAST_BAND_RATIO * last ? [...edges, top] : edges;
    edges.push(next);
  }
}
