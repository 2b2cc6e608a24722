import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { TrackerKernel } from "./TrackerKernel.js";

/** Time from one frame to the next. */
export const FRAME_HOP_SECONDS = 0.01;
/** Lowest and highest fundamental that is looked for. */
const LOWEST_HZ = 45;
const HIGHEST_HZ = 1700;
/** The shortest period whose peak comes this close to the highest one is taken, so that 2, 3, ... periods don't win. */
const FIRST_PEAK_SHARE = 0.87;
/** Peaks lower than this share of the highest, both on whole lags, are not worth refining. */
const ROUGH_SHARE = 0.45;
/** Below this no pitch is claimed: noise seldom reaches it, a string at 0 dB signal-to-noise does. */
const LEAST_CLARITY = 0.3;
/** Before a true peak the correlation has dipped below this share of it; ripples on the slope of lag 0 have not. */
const DIP_SHARE = 0.8;

/** Of what was taken out of a sound 10 dB less is left at worst, where it begins, ends or bursts out. */
const LEFT_SHARE = 0.1;

/** What the tracker says of one frame. */
export interface PitchFrame {
  /** Fundamental in hertz; 0 where no periodicity was found. */
  readonly frequencyHz: number;
  /** Height of the autocorrelation peak, 0 to about 1. */
  readonly clarity: number;
  /** Power between 36 Hz and 3 kHz, mean of the channels; 1 is that of a full-scale sine. */
  readonly power: number;
}

/** Fundamentals that are looked for. */
export interface PitchRange {
  readonly lowestHz: number;
  readonly highestHz: number;
}

/**
 * Fundamental of one frame by the autocorrelation of the compressed spectrum.
 *
 * The power spectra of all channels are added (never their samples, which would comb); the square root, so that weak
 * partials count (Tolonen & Karjalainen 2000 compress in the same place), is transformed back; the result is divided by
 * what the same path makes of a lone sine, as Boersma (1993) does for the plain autocorrelation. Level plays no part:
 * frames 100 dB apart give the same number. Measured on 1/n partials from 50 to 1600 Hz: the octave right; within 3 cents
 * up to 1500 Hz where noise is 60 dB down; with white noise 30 dB down within 2 cents up to 500 Hz, 6 up to 1 kHz, 14 up
 * to 1.5 kHz; `tests/pitch` holds it to that. The frame is not padded with silence: far lags fold back, which moves a weak
 * low string by less than a cent and halves the time. A lone sine below 80 Hz, which no string gives, can be 150 cents off.
 */
export class FrameTracker {
  /** Samples in one frame (102 to 205 ms). */
  readonly frameSamples: number;
  private readonly sampleRateHz: number;
  private readonly kernel: TrackerKernel;
  /** Of the last frame, from bin 0 to half the sample rate; 0 outside the band that is looked at. */
  private readonly power: Float64Array;
  private readonly powerScale: number;
  private readonly firstBin: number;
  private readonly lastBin: number;

  /**
   * @param sampleRateHz - rate after decimation, 8,000 to 16,000 Hz
   * @param range - only periods of these fundamentals are looked at; what lies below still sounds in the frame
   */
  constructor(
    sampleRateHz: number,
    { lowestHz = LOWEST_HZ, highestHz = HIGHEST_HZ }: Partial<PitchRange> = {},
  ) {
    this.sampleRateHz = sampleRateHz;
    this.frameSamples = nextPowerOfTwo(0.1 * sampleRateHz);
    const size = this.frameSamples;
    this.firstBin = Math.ceil((LOWEST_HZ * 0.8 * size) / sampleRateHz);
    this.lastBin = Math.min(size / 2, Math.floor((ANALYSIS_TOP_HZ * size) / sampleRateHz));
    this.kernel = new TrackerKernel(
      size,
      { first: this.firstBin, last: this.lastBin },
      {
        minimum: Math.max(2, Math.floor(sampleRateHz / Math.min(HIGHEST_HZ, highestHz))),
        maximum: Math.ceil(sampleRateHz / Math.max(LOWEST_HZ, lowestHz)),
      },
      {
        leastClarity: LEAST_CLARITY,
        firstPeakShare: FIRST_PEAK_SHARE,
        roughShare: ROUGH_SHARE,
        dipShare: DIP_SHARE,
      },
    );
    this.power = new Float64Array(size / 2 + 1);
    this.powerScale = 4 / (size * this.kernel.windowEnergy);
  }

  /**
   * @param channels - one frame of every channel, each {@link FrameTracker.frameSamples} long from `start`
   * @param takenOut - a sound that was taken out of them; where it stood, {@link LEFT_SHARE} of its power is thought to be left
   */
  track(channels: readonly Float32Array[], start: number, takenOut?: Float32Array): PitchFrame {
    const { kernel, power, firstBin, lastBin } = this;
    if (takenOut === undefined) kernel.powerOf(power, channels, start);
    else {
      kernel.powerOf(power, [takenOut], start);
      const left = power.map((value) => LEFT_SHARE * value);
      kernel.powerOf(power, channels, start);
      for (let k = firstBin; k <= lastBin; k++) power[k] = Math.max(0, power[k] - left[k]);
    }
    let sum = 0;
    for (let k = firstBin; k <= lastBin; k++) sum += power[k];
    if (!(sum > 0)) return { frequencyHz: 0, clarity: 0, power: 0 };
    const { lag, height } = kernel.firstHighPeak(power);
    return {
      frequencyHz: lag > 0 ? this.sampleRateHz / lag : 0,
      clarity: Math.min(1, height),
      power: (sum * this.powerScale) / channels.length,
    };
  }

  /**
   * Of the last frame's power at the multiples of a frequency, the share at those that are no multiples of `factor` times it: near 0 where
   * the true fundamental is that many times higher. (What is left of a drone an octave below a note brings the tracker, which
   * gives weak partials a say, down to it.)
   */
  shareBetween(frequencyHz: number, factor: number): number {
    const binHz = this.sampleRateHz / this.frameSamples;
    let between = 0;
    let all = 0;
    for (let number = 1; number * frequencyHz < this.lastBin * binHz; number++) {
      const middle = Math.round((number * frequencyHz) / binHz);
      const last = Math.min(this.lastBin, middle + 1);
      for (let k = Math.max(this.firstBin, middle - 1); k <= last; k++) {
        all += this.power[k];
        if (number % factor !== 0) between += this.power[k];
      }
    }
    return all > 0 ? between / all : 1;
  }
}
