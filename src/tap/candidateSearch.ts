import { sharedFft } from "../signal/sharedFft.js";
import type { DecayWindows } from "./DecayWindows.js";
import type { Pole } from "./Pole.js";

/** Decays that are tried, per second: bodies from Q 60 at 50 Hz to Q 8 at 2.5 kHz, and steady lines. */
const DECAYS = [0, 2, 5, 10, 20, 40, 80, 160, 320, 640, 1000];
const FROM_HZ = 40;
const TO_HZ = 2800;
/** Broader vibrations than this are no modes but what is left of the push. */
const LEAST_Q = 5;
/** Two candidates stand at least this far apart, as a logarithm of their frequencies. */
const APART = 0.04;
/** A vibration smaller than this share of its start is over, as a logarithm. */
const OVER = 14;

/** A vibration that might be added. */
interface Candidate {
  readonly pole: Pole;
  /** About by how much it would lower the sum of squares. */
  readonly gain: number;
  /** That against what the same vibration explains of the whole sound. */
  readonly share: number;
}

/** Finds where what a fit leaves looks most like a decaying vibration; best first. */
export type CandidateSearch = (rest: readonly Float64Array[], most: number) => Candidate[];

/**
 * A search over one set of windows: the power of the spectra of what is left under exponential weights, summed over taps, against
 * that of the weight itself (a matched filter for each decay).
 */
export function candidateSearch({ windows, rateHz }: DecayWindows): CandidateSearch {
  const filters = DECAYS.map((decay) => {
    const length = windows[0]!.length;
    const count = decay === 0 ? length : Math.min(length, Math.ceil((OVER * rateHz) / decay));
    const fftSize = 2 ** Math.ceil(Math.log2(2 * count));
    const weights = Float64Array.from({ length: count }, (_, n) => Math.exp((-decay * n) / rateHz));
    const power = weights.reduce((sum, weight) => sum + weight * weight, 0);
    const lastBin = Math.min(fftSize / 2 - 1, Math.floor((TO_HZ * fftSize) / rateHz));
    const whole = weightedPower(windows, weights, fftSize, lastBin);
    return { decay, weights, power, fftSize, lastBin, whole };
  });
  return (rest, most) => {
    const found = filters.flatMap(({ decay, weights, power, fftSize, lastBin, whole }): Candidate[] => {
      const left = weightedPower(rest, weights, fftSize, lastBin);
      const binHz = rateHz / fftSize;
      const fromHz = Math.max(FROM_HZ, (decay * LEAST_Q) / Math.PI);
      const peaks: Candidate[] = [];
      for (let b = Math.max(1, Math.ceil(fromHz / binHz)); b < lastBin; b++) {
        if (left[b]! < left[b - 1]! || left[b]! < left[b + 1]!) continue;
        peaks.push({
          pole: { frequencyHz: b * binHz, decay },
          gain: (2 * left[b]!) / power,
          share: left[b]! / Math.max(whole[b]!, Number.MIN_VALUE),
        });
      }
      return peaks;
    });
    found.sort((a, b) => b.gain - a.gain);
    const kept: Candidate[] = [];
    for (const one of found) {
      if (kept.length >= most) break;
      const isNew = ({ pole }: Candidate) =>
        Math.abs(Math.log(pole.frequencyHz / one.pole.frequencyHz)) > APART;
      if (kept.every(isNew)) kept.push(one);
    }
    return kept;
  };
}

function weightedPower(
  windows: readonly Float64Array[],
  weights: Float64Array,
  fftSize: number,
  lastBin: number,
): Float64Array {
  const fft = sharedFft(fftSize);
  const power = new Float64Array(lastBin + 1);
  const values = new Float64Array(fftSize);
  const out = new Float64Array(2 * fftSize);
  for (const window of windows) {
    for (let n = 0; n < weights.length; n++) values[n] = weights[n]! * window[n]!;
    fft.real(out, values);
    for (let b = 0; b <= lastBin; b++) power[b]! += out[2 * b]! ** 2 + out[2 * b + 1]! ** 2;
  }
  return power;
}
