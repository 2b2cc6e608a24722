import { hannWindow } from "../signal/hannWindow.js";
import { glideLead, type PitchGlide } from "./PitchGlide.js";

/** A partial moved to 0 Hz: one complex value a frame, a steady sine of amplitude A giving A. */
export interface PartialFrames {
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Middle of each frame, from the beginning of the stretch. */
  readonly times: Float64Array;
  /** What was moved to 0 Hz. */
  readonly centreHz: number;
  readonly frameSeconds: number;
  /** What a glide turns the partial by in each frame, as a phasor; null for none. Strings that rang before don't take part. */
  readonly turn: { readonly re: Float64Array; readonly im: Float64Array } | null;
}

/** Short enough for a string that falls by 60 dB in half a second, long enough to keep the neighbours out. */
const FRAME_SECONDS = 0.02;

/**
 * Frames of 20 ms, half of each over the next, of the sound about one partial. A decaying sine that lies wholly within the frames is a
 * decaying sine there too, whatever the window.
 */
export function partialFrames(samples: Float64Array, sampleRateHz: number, centreHz: number): PartialFrames {
  const size = 2 * Math.round((FRAME_SECONDS * sampleRateHz) / 2);
  const hop = size / 2;
  const window = hannWindow(size);
  const scale = 2 / hop;
  const count = Math.max(0, Math.floor((samples.length - size) / hop) + 1);
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const times = Float64Array.from({ length: count }, (_, m) => (m * hop + size / 2) / sampleRateHz);
  const omega = (2 * Math.PI * centreHz) / sampleRateHz;
  const weightRe = window.map((w, i) => w * Math.cos(omega * (i - size / 2)));
  const weightIm = window.map((w, i) => -w * Math.sin(omega * (i - size / 2)));
  for (let m = 0; m < count; m++) {
    let sumRe = 0;
    let sumIm = 0;
    const start = m * hop;
    for (let i = 0; i < size; i++) {
      sumRe += weightRe[i] * samples[start + i];
      sumIm += weightIm[i] * samples[start + i];
    }
    const angle = -2 * Math.PI * centreHz * times[m];
    const [cos, sin] = [scale * Math.cos(angle), scale * Math.sin(angle)];
    re[m] = sumRe * cos - sumIm * sin;
    im[m] = sumRe * sin + sumIm * cos;
  }
  return { re, im, times, centreHz, frameSeconds: size / sampleRateHz, turn: null };
}

/** The same frames, with the turn that a glide gives this partial in each. */
export function alongGlide(frames: PartialFrames, { rise, fadePerSecond }: PitchGlide): PartialFrames {
  if (rise === 0) return { ...frames, turn: null };
  const re = new Float64Array(frames.re.length);
  const im = new Float64Array(frames.re.length);
  for (const [m, t] of frames.times.entries()) {
    const angle = 2 * Math.PI * frames.centreHz * rise * glideLead(fadePerSecond, t);
    re[m] = Math.cos(angle);
    im[m] = Math.sin(angle);
  }
  return { ...frames, turn: { re, im } };
}
