import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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

  /** @param place - where a copy of the samples lies in the kernels' memory */
  add(samples: Float32Array, place: number): void {
    let mayBeWhole = true;
    for (let start = 0; start < samples.length; ) {
      if (mayBeWhole && this.block.frames === 0) {
        start += this.addWholeBlocks(samples.length - start, place + start * Float32Array.BYTES_PER_ELEMENT);
        if (start === samples.length) break;
        // What is left is less than a block, or has something in it that only a look at each block tells.
        mayBeWhole = false;
      }
      const end = Math.min(samples.length, start + this.blockFrames - this.block.frames);
      this.addPartOfBlock(samples, place, start, end);
      if (this.block.frames === this.blockFrames) this.closeBlock();
      start = end;
    }
    this.plateaus.add(samples, LARGEST_SAMPLE, place);
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

  /** Adds as many blocks as there are, all at once; none where one holds a value that can't be sound. Gives the samples added. */
  private addWholeBlocks(length: number, place: number): number {
    const { blockFrames } = this;
    const count = Math.floor(length / blockFrames);
    if (count === 0) return 0;
    const result = kernels().scratch(
      8 * Float64Array.BYTES_PER_ELEMENT + count * Float32Array.BYTES_PER_ELEMENT,
      ScratchUser.sums,
    );
    const totals = result + 4 * Float64Array.BYTES_PER_ELEMENT;
    const powers = totals + 4 * Float64Array.BYTES_PER_ELEMENT;
    const { functions, f32, f64 } = kernels();
    const first = totals / Float64Array.BYTES_PER_ELEMENT;
    f64.set([this.sum, this.sumOfSquares, this.maximum, this.minimum], first);
    functions.summariseBlocks(place, blockFrames, count, result, powers, totals);
    const [sum, squares, maximum, minimum] = f64.subarray(first, first + 4);
    if (!isPossible(squares, maximum, minimum)) return 0;
    this.sum = sum;
    this.sumOfSquares = squares;
    this.maximum = maximum;
    this.minimum = minimum;
    this.frameCount += count * blockFrames;
    while (this.blockCount + count > this.blockPower.length) this.growBlocks();
    const firstPower = powers / Float32Array.BYTES_PER_ELEMENT;
    this.blockPower.set(f32.subarray(firstPower, firstPower + count), this.blockCount);
    this.blockCount += count;
    return count * blockFrames;
  }

  private growBlocks(): void {
    const longer = new Float32Array(2 * this.blockPower.length);
    longer.set(this.blockPower);
    this.blockPower = longer;
  }

  private addPartOfBlock(samples: Float32Array, place: number, start: number, end: number): void {
    const result = kernels().scratch(4 * Float64Array.BYTES_PER_ELEMENT, ScratchUser.sums);
    const { functions, f64 } = kernels();
    functions.summarise(place + start * Float32Array.BYTES_PER_ELEMENT, end - start, result);
    const first = result / Float64Array.BYTES_PER_ELEMENT;
    let sum = f64[first];
    let squares = f64[first + 1];
    let maximum = f64[first + 2];
    let minimum = f64[first + 3];
    if (!isPossible(squares, maximum, minimum)) {
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
    if (this.blockCount === this.blockPower.length) this.growBlocks();
    const usable = this.block.frames - this.block.nonFinite;
    this.blockPower[this.blockCount++] = usable > 0 ? this.block.sumOfSquares / usable : 0;
    this.block = { frames: 0, sumOfSquares: 0, nonFinite: 0 };
  }
}

/** A NaN passes the comparisons of the extremes unseen but not the sum: one test is enough to find it. */
function isPossible(squares: number, maximum: number, minimum: number): boolean {
  return maximum <= LARGEST_SAMPLE && minimum >= -LARGEST_SAMPLE && squares < Number.POSITIVE_INFINITY;
}
