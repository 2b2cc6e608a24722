import { lowPassTaps } from "./lowPassTaps.js";

/** Partials are fitted up to here, so decimation keeps everything below it untouched. */
export const ANALYSIS_TOP_HZ = 3000;
const LOWEST_ANALYSIS_RATE_HZ = 8000;
/** Aliases and ripple 90 dB down: below the noise of any 16-bit recording. */
const ATTENUATION_DB = 90;

/** By how much a recording of this rate is decimated: the largest whole factor that leaves 8 kHz or more. */
export function decimationFactor(sampleRateHz: number): number {
  return Math.max(1, Math.floor(sampleRateHz / LOWEST_ANALYSIS_RATE_HZ));
}

/**
 * Lowers the sample rate of a stream by a whole factor, in pieces of any size.
 *
 * Output sample k stands exactly at input sample k * factor (the filter's delay is taken out), whatever the pieces.
 * Flat within 0.001 dB up to {@link ANALYSIS_TOP_HZ}; what would fold onto that range is 89 dB down or more.
 */
export class Decimator {
  readonly factor: number;
  readonly outputRateHz: number;
  private readonly taps: Float64Array;
  private readonly half: number;
  private held: Float32Array;
  private heldStart: number;
  private nextOutput = 0;

  constructor(sampleRateHz: number, factor = decimationFactor(sampleRateHz)) {
    this.factor = factor;
    this.outputRateHz = sampleRateHz / factor;
    this.taps =
      factor === 1
        ? Float64Array.of(1)
        : lowPassTaps(ANALYSIS_TOP_HZ, this.outputRateHz - ANALYSIS_TOP_HZ, sampleRateHz, ATTENUATION_DB);
    this.half = (this.taps.length - 1) / 2;
    this.held = new Float32Array(this.half);
    this.heldStart = -this.half;
  }

  /** Takes the next samples in and gives the output samples that are complete. */
  push(samples: Float32Array): Float32Array {
    const joined = new Float32Array(this.held.length + samples.length);
    joined.set(this.held);
    joined.set(samples, this.held.length);
    const end = this.heldStart + joined.length;
    const count = Math.max(0, Math.floor((end - 1 - this.half) / this.factor) - this.nextOutput + 1);
    const output = new Float32Array(count);
    const { taps, half } = this;
    for (let k = 0; k < count; k++) {
      const centre = (this.nextOutput + k) * this.factor - this.heldStart;
      let sum = taps[half] * joined[centre];
      for (let j = 1; j <= half; j++) sum += taps[half + j] * (joined[centre - j] + joined[centre + j]);
      output[k] = sum;
    }
    this.nextOutput += count;
    const keepFrom = Math.max(0, this.nextOutput * this.factor - half - this.heldStart);
    this.held = joined.slice(keepFrom);
    this.heldStart += keepFrom;
    return output;
  }

  /** Gives the rest, as if silence followed. */
  finish(): Float32Array {
    return this.push(new Float32Array(this.half));
  }
}
