import { PlateauDetector } from "./PlateauDetector.js";
import type { ChannelSurvey } from "./RecordingSurvey.js";
import { LARGEST_SAMPLE } from "./withoutNonFinite.js";

/** Adds up one channel, block by block. Part of the survey; takes pieces of any length. */
export class ChannelAccumulator {
  private readonly plateaus = new PlateauDetector();
  private readonly blockFrames: number;
  private blockPower = new Float32Array(1024);
  private blockCount = 0;
  private frameCount = 0;
  private maximum = Number.NEGATIVE_INFINITY;
  private minimum = Number.POSITIVE_INFINITY;
  private sum = 0;
  private sumOfSquares = 0;
  private nonFiniteCount = 0;
  private firstNonFinite = -1;
  private block = { frames: 0, sumOfSquares: 0, nonFinite: 0 };
  private readonly onNonFinite: (block: number) => void;

  /** @param onNonFinite - told the number of each block that holds a value that can't be sound */
  constructor(blockFrames: number, onNonFinite: (block: number) => void) {
    this.blockFrames = blockFrames;
    this.onNonFinite = onNonFinite;
  }

  add(samples: Float32Array): void {
    for (let start = 0; start < samples.length; ) {
      const end = Math.min(samples.length, start + this.blockFrames - this.block.frames);
      this.addPartOfBlock(samples, start, end);
      if (this.block.frames === this.blockFrames) this.closeBlock();
      start = end;
    }
    this.plateaus.add(samples, LARGEST_SAMPLE);
  }

  /** What was found. With no usable sample the amplitudes are 0, and `nonFiniteCount` says why. */
  finish(sampleRateHz: number): ChannelSurvey {
    if (this.block.frames > 0) this.closeBlock();
    const usable = this.frameCount - this.nonFiniteCount;
    const dcMean = usable > 0 ? this.sum / usable : 0;
    const maximum = usable > 0 ? this.maximum : 0;
    const minimum = usable > 0 ? this.minimum : 0;
    const plateaus = this.plateaus.finish();
    return {
      maximum,
      minimum,
      peak: Math.max(maximum - dcMean, dcMean - minimum),
      dcMean,
      rms: usable > 0 ? Math.sqrt(Math.max(0, this.sumOfSquares / usable - dcMean * dcMean)) : 0,
      nonFiniteCount: this.nonFiniteCount,
      firstNonFiniteSeconds: this.firstNonFinite < 0 ? null : this.firstNonFinite / sampleRateHz,
      clippedRunCount: plateaus.count,
      clippedSampleCount: plateaus.sampleCount,
      firstClippedSeconds: plateaus.first < 0 ? null : plateaus.first / sampleRateHz,
      quantum: Number.isFinite(this.plateaus.quantum) ? this.plateaus.quantum : null,
      blockPower: this.blockPower.slice(0, this.blockCount),
    };
  }

  private addPartOfBlock(samples: Float32Array, start: number, end: number): void {
    let sum = 0;
    let squares = 0;
    let maximum = Number.NEGATIVE_INFINITY;
    let minimum = Number.POSITIVE_INFINITY;
    let i = start;
    // Two at a time, so that no sum has to wait for the last one.
    let sumOfOther = 0;
    let squaresOfOther = 0;
    for (; i + 2 <= end; i += 2) {
      const value = samples[i];
      const other = samples[i + 1];
      sum += value;
      sumOfOther += other;
      squares += value * value;
      squaresOfOther += other * other;
      if (value > maximum) maximum = value;
      if (value < minimum) minimum = value;
      if (other > maximum) maximum = other;
      if (other < minimum) minimum = other;
    }
    if (i < end) {
      const value = samples[i];
      sum += value;
      squares += value * value;
      if (value > maximum) maximum = value;
      if (value < minimum) minimum = value;
    }
    sum += sumOfOther;
    squares += squaresOfOther;
    // A NaN passes both comparisons unseen but not the sum; one test a block keeps the loop above fast.
    if (!(maximum <= LARGEST_SAMPLE && minimum >= -LARGEST_SAMPLE && squares < Number.POSITIVE_INFINITY)) {
      [sum, squares, maximum, minimum] = this.addWithGaps(samples, start, end);
    }
    this.sum += sum;
    this.sumOfSquares += squares;
    this.block.sumOfSquares += squares;
    this.block.frames += end - start;
    this.frameCount += end - start;
    if (maximum > this.maximum) this.maximum = maximum;
    if (minimum < this.minimum) this.minimum = minimum;
  }

  private addWithGaps(samples: Float32Array, start: number, end: number): [number, number, number, number] {
    let sum = 0;
    let squares = 0;
    let maximum = Number.NEGATIVE_INFINITY;
    let minimum = Number.POSITIVE_INFINITY;
    for (let i = start; i < end; i++) {
      const value = samples[i];
      if (Math.abs(value) <= LARGEST_SAMPLE) {
        sum += value;
        squares += value * value;
        maximum = Math.max(maximum, value);
        minimum = Math.min(minimum, value);
      } else {
        if (this.firstNonFinite < 0) this.firstNonFinite = this.frameCount + i - start;
        this.nonFiniteCount++;
        this.block.nonFinite++;
      }
    }
    this.onNonFinite(this.blockCount);
    return [sum, squares, maximum, minimum];
  }

  private closeBlock(): void {
    if (this.blockCount === this.blockPower.length) {
      const longer = new Float32Array(2 * this.blockCount);
      longer.set(this.blockPower);
      this.blockPower = longer;
    }
    const usable = this.block.frames - this.block.nonFinite;
    this.blockPower[this.blockCount++] = usable > 0 ? this.block.sumOfSquares / usable : 0;
    this.block = { frames: 0, sumOfSquares: 0, nonFinite: 0 };
  }
}
