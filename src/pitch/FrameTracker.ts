import { CosineTransform } from "../signal/CosineTransform.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { Fft } from "../signal/Fft.js";
import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";

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
  private readonly fft: Fft;
  private readonly cosineTransform: CosineTransform;
  private readonly window: Float64Array;
  private readonly input: Float64Array;
  private readonly spectrum: Float64Array;
  /** From bin 0 to half the sample rate, 0 outside the band that is looked at. */
  private readonly power: Float64Array;
  private readonly amplitude: Float64Array;
  /** At whole lags, one more than is looked at. */
  private readonly correlation: Float64Array;
  private readonly envelope: Float64Array;
  private readonly powerScale: number;
  private readonly lagMinimum: number;
  private readonly lagMaximum: number;
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
    this.fft = new Fft(size);
    this.window = hannWindow(this.frameSamples);
    this.powerScale = 4 / (size * this.window.reduce((sum, value) => sum + value * value, 0));
    this.input = new Float64Array(2 * size);
    this.spectrum = new Float64Array(2 * size);
    this.cosineTransform = new CosineTransform(size / 2);
    this.power = new Float64Array(size / 2 + 1);
    this.amplitude = new Float64Array(size / 2 + 2);
    this.lagMinimum = Math.max(2, Math.floor(sampleRateHz / Math.min(HIGHEST_HZ, highestHz)));
    this.lagMaximum = Math.ceil(sampleRateHz / Math.max(LOWEST_HZ, lowestHz));
    this.correlation = new Float64Array(this.lagMaximum + 2);
    this.firstBin = Math.ceil((LOWEST_HZ * 0.8 * size) / sampleRateHz);
    this.lastBin = Math.min(size / 2, Math.floor((ANALYSIS_TOP_HZ * size) / sampleRateHz));
    this.envelope = this.loneSineEnvelope();
  }

  /**
   * @param channels - one frame of every channel, each {@link FrameTracker.frameSamples} long from `start`
   * @param takenOut - a sound that was taken out of them; where it stood, {@link LEFT_SHARE} of its power is thought to be left
   */
  track(channels: readonly Float32Array[], start: number, takenOut?: Float32Array): PitchFrame {
    this.power.fill(0);
    if (takenOut !== undefined) this.addPower(takenOut, start);
    const left = takenOut === undefined ? null : this.power.map((value) => LEFT_SHARE * value);
    if (left !== null) this.power.fill(0);
    for (let channel = 0; channel < channels.length; channel += 2) {
      const second = channels[channel + 1];
      if (second === undefined) this.addPower(channels[channel], start);
      else this.addPowers(channels[channel], second, start);
    }
    let sum = 0;
    for (let k = this.firstBin; k <= this.lastBin; k++) {
      if (left !== null) this.power[k] = Math.max(0, this.power[k] - left[k]);
      sum += this.power[k];
    }
    const power = (sum * this.powerScale) / channels.length;
    if (!(sum > 0)) return { frequencyHz: 0, clarity: 0, power: 0 };
    this.correlate();
    const { frequencyHz, clarity } = this.firstHighPeak();
    return { frequencyHz, clarity, power };
  }

  /**
   * Of the last frame's power at the multiples of a frequency, the share at those that are no multiples of `factor` times it: near 0 where
   * the true fundamental is that many times higher. (What is left of a drone an octave below a note brings the tracker, which
   * gives weak partials a say, down to it.)
   */
  shareBetween(frequencyHz: number, factor: number): number {
    const binHz = this.sampleRateHz / this.fft.size;
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

  private addPower(samples: Float32Array, start: number): void {
    const { window, input, spectrum, power } = this;
    const length = window.length;
    for (let i = 0; i < length; i++) input[i] = window[i] * samples[start + i];

    this.fft.real(spectrum, input);
    for (let k = this.firstBin; k <= this.lastBin; k++) {
      power[k] += spectrum[2 * k] * spectrum[2 * k] + spectrum[2 * k + 1] * spectrum[2 * k + 1];
    }
  }

  /** Two real channels travel as one complex signal: |Z(k)|^2 + |Z(-k)|^2 is twice the sum of their powers. */
  private addPowers(first: Float32Array, second: Float32Array, start: number): void {
    const { window, input, spectrum, power } = this;
    const length = window.length;
    for (let i = 0; i < length; i++) {
      input[2 * i] = window[i] * first[start + i];
      input[2 * i + 1] = window[i] * second[start + i];
    }

    this.fft.forward(spectrum, input);
    const size = this.fft.size;
    for (let k = this.firstBin; k <= this.lastBin; k++) {
      const real = spectrum[2 * k];
      const imaginary = spectrum[2 * k + 1];
      const mirrorReal = spectrum[2 * (size - k)];
      const mirrorImaginary = spectrum[2 * (size - k) + 1];
      power[k] +=
        (real * real + imaginary * imaginary + mirrorReal * mirrorReal + mirrorImaginary * mirrorImaginary) /
        2;
    }
  }

  private correlate(): void {
    const { power, amplitude } = this;
    for (let k = this.firstBin; k <= this.lastBin; k++) amplitude[k] = Math.sqrt(power[k]);
    this.cosineTransform.transform(this.correlation, amplitude);
  }

  private normalised(lag: number): number {
    return this.correlation[lag] / this.correlation[0] / this.envelope[lag];
  }

  /** The same between whole lags, summed from the spectrum: a narrow peak lies lower on whole lags than it is. */
  private normalisedBetween(lag: number): number {
    const { amplitude } = this;
    const step = (2 * Math.PI * lag) / this.fft.size;
    const stepReal = Math.cos(2 * step);
    const stepImaginary = Math.sin(2 * step);
    let evenReal = Math.cos(step * this.firstBin);
    let evenImaginary = Math.sin(step * this.firstBin);
    let oddReal = Math.cos(step * (this.firstBin + 1));
    let oddImaginary = Math.sin(step * (this.firstBin + 1));
    let sum = 0;
    // Two bins at a time, each on a phasor of its own: neither waits for the other. Beyond the last bin stands a 0.
    for (let k = this.firstBin; k <= this.lastBin; k += 2) {
      sum += amplitude[k] * evenReal + amplitude[k + 1] * oddReal;
      const nextEven = evenReal * stepReal - evenImaginary * stepImaginary;
      evenImaginary = evenReal * stepImaginary + evenImaginary * stepReal;
      evenReal = nextEven;
      const nextOdd = oddReal * stepReal - oddImaginary * stepImaginary;
      oddImaginary = oddReal * stepImaginary + oddImaginary * stepReal;
      oddReal = nextOdd;
    }
    const below = Math.floor(lag);
    const envelope = this.envelope[below] + (lag - below) * (this.envelope[below + 1] - this.envelope[below]);
    return (2 * sum) / this.correlation[0] / envelope;
  }

  private firstHighPeak(): Omit<PitchFrame, "power"> {
    const lags: number[] = [];
    let highest = 0;
    let lowest = 1;
    let height = this.normalised(0);
    let next = this.normalised(1);
    // From lag 1 on, since the dip before the highest pitch lies below the shortest period that counts.
    for (let lag = 1; lag <= this.lagMaximum; lag++) {
      const previous = height;
      height = next;
      next = this.normalised(lag + 1);
      if (height < lowest) lowest = height;
      if (lag < this.lagMinimum) continue;
      if (height < previous || height <= next || height <= 0 || lowest > DIP_SHARE * height) continue;
      lags.push(lag);
      if (height > highest) highest = height;
    }
    if (highest < LEAST_CLARITY) return { frequencyHz: 0, clarity: highest };
    const peaks: { lag: number; height: number }[] = [];
    let top = 0;
    for (const lag of lags) {
      if (this.normalised(lag) < ROUGH_SHARE * highest) continue;
      const peak = this.refine(lag);
      peaks.push(peak);
      if (peak.height > top) top = peak.height;
      // No later peak can stand above 1, so this one is the first high one already.
      if (peak.height >= FIRST_PEAK_SHARE) break;
    }
    const first = peaks.find((peak) => peak.height >= FIRST_PEAK_SHARE * top) ?? peaks[0];
    return { frequencyHz: this.sampleRateHz / first.lag, clarity: Math.min(1, first.height) };
  }

  private refine(wholeLag: number): { lag: number; height: number } {
    let lag = wholeLag;
    let height = this.normalised(lag);
    for (const step of [0.5, 0.1]) {
      const before = this.normalisedBetween(lag - step);
      const after = this.normalisedBetween(lag + step);
      const curvature = before - 2 * height + after;
      if (curvature >= 0) break;
      lag += step * Math.max(-1, Math.min(1, (before - after) / (2 * curvature)));
      height = this.normalisedBetween(lag);
    }
    return { lag, height };
  }

  private loneSineEnvelope(): Float64Array {
    const { window, input, spectrum } = this;
    const size = this.fft.size;
    input.fill(0);
    for (let i = 0; i < window.length; i++) {
      input[2 * i] = window[i] * Math.cos((Math.PI * i) / 2);
      input[2 * i + 1] = window[i] * Math.sin((Math.PI * i) / 2);
    }
    this.fft.forward(spectrum, input);
    input.fill(0);
    for (let k = 0; k < size; k++) input[2 * k] = Math.sqrt(spectrum[2 * k] ** 2 + spectrum[2 * k + 1] ** 2);
    this.fft.forward(spectrum, input);
    return Float64Array.from({ length: this.lagMaximum + 2 }, (_, lag) =>
      Math.max(1e-3, Math.hypot(spectrum[2 * lag], spectrum[2 * lag + 1]) / spectrum[0]),
    );
  }
}
