import { DecimationStage } from "./DecimationStage.js";
import { lowPassTaps } from "./lowPassTaps.js";

/** Partials are fitted up to here, so decimation keeps everything below it untouched. */
export const ANALYSIS_TOP_HZ = 3000;
const LOWEST_ANALYSIS_RATE_HZ = 8000;
/** Aliases and ripple 90 dB down, below the noise of any 16-bit recording, with room for two filters in a row. */
const ATTENUATION_DB = 92;

/** By how much a recording of this rate is decimated: the largest whole factor that leaves 8 kHz or more. */
export function decimationFactor(sampleRateHz: number): number {
  return Math.max(1, Math.floor(sampleRateHz / LOWEST_ANALYSIS_RATE_HZ));
}

/**
 * Lowers the sample rate of a stream by a whole factor, in pieces of any size.
 *
 * Output sample k stands exactly at input sample k * factor (the filter's delay is taken out), whatever the pieces.
 * Flat within 0.001 dB up to {@link ANALYSIS_TOP_HZ}; what would fold onto that range is 89 dB down or more.
 *
 * An even factor above 2 is done in two steps, the last one by 2 (Crochiere & Rabiner 1975; from memory): the first filter
 * may be short, as what it lets fold above the analysis band is the second one's to stop.
 */
export class Decimator {
  readonly factor: number;
  readonly outputRateHz: number;
  private readonly stages: readonly DecimationStage[];
  private readonly half: number;
  private readonly restingLevel: number;

  /** @param restingLevel - what the recording is taken to hold before its first sample and after its last */
  constructor(sampleRateHz: number, restingLevel = 0) {
    this.restingLevel = restingLevel;
    const factor = decimationFactor(sampleRateHz);
    this.factor = factor;
    this.outputRateHz = sampleRateHz / factor;
    const tapsFor = (rateHz: number, by: number) =>
      lowPassTaps(ANALYSIS_TOP_HZ, rateHz / by - ANALYSIS_TOP_HZ, rateHz, ATTENUATION_DB);
    if (factor === 1) {
      this.stages = [];
      this.half = 0;
    } else if (factor > 2 && factor % 2 === 0) {
      const lastTaps = tapsFor(2 * this.outputRateHz, 2);
      const reach = (lastTaps.length - 1) / 2;
      // What the first filter gives before the recording begins, its way in, is sound to the second one.
      const first = new DecimationStage(
        tapsFor(sampleRateHz, factor / 2),
        factor / 2,
        -reach,
        0,
        restingLevel,
      );
      this.stages = [first, new DecimationStage(lastTaps, 2, 0, -reach, restingLevel)];
      this.half = first.half + (factor / 2) * reach;
    } else {
      const only = new DecimationStage(tapsFor(sampleRateHz, factor), factor, 0, 0, restingLevel);
      this.stages = [only];
      this.half = only.half;
    }
  }

  /** Takes the next samples in and gives the output samples that are complete. */
  push(samples: Float32Array): Float32Array {
    if (this.stages.length === 0) return samples.slice();
    return this.stages.reduce((passed, stage) => stage.push(passed), samples);
  }

  /** Gives the rest, as if the resting level followed. */
  finish(): Float32Array {
    return this.push(new Float32Array(this.half).fill(this.restingLevel));
  }
}
