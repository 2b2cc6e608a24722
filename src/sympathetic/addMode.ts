import type { DampedMode } from "./DampedMode.js";
import { glideLead, type PitchGlide } from "./PitchGlide.js";

/** The angle per sample is right at the beginning of each block. */
const BLOCK = 32;

/** Adds a mode, `sign` times, to samples that begin at time 0 of the mode. */
export function addMode(
  samples: Float64Array,
  sampleRateHz: number,
  mode: DampedMode,
  sign: number,
  { rise, fadePerSecond }: PitchGlide,
): void {
  const shrink = Math.exp(-mode.decayPerSecond / sampleRateHz);
  const omega = 2 * Math.PI * mode.frequencyHz;
  const amplitude = sign * Math.hypot(mode.re, mode.im);
  const phase = Math.atan2(mode.im, mode.re);
  for (let from = 0; from < samples.length; from += BLOCK) {
    const t = from / sampleRateHz;
    const size = amplitude * Math.exp(-mode.decayPerSecond * t);
    const angle = phase + omega * (t + rise * glideLead(fadePerSecond, t));
    const middle = t + BLOCK / 2 / sampleRateHz;
    const step = (omega * (1 + rise * Math.exp(-fadePerSecond * middle))) / sampleRateHz;
    const cos = shrink * Math.cos(step);
    const sin = shrink * Math.sin(step);
    let re = size * Math.cos(angle);
    let im = size * Math.sin(angle);
    const end = Math.min(samples.length, from + BLOCK);
    for (let i = from; i < end; i++) {
      samples[i] += re;
      const next = re * cos - im * sin;
      im = re * sin + im * cos;
      re = next;
    }
  }
}
