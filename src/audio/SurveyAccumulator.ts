import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { ChannelAccumulator } from "./ChannelAccumulator.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { LARGEST_SAMPLE } from "./withoutNonFinite.js";

/** Short enough to see a pause begin, long enough for one period of 100 Hz. */
const BLOCK_SECONDS = 0.01;

/**
 * Surveys a recording from the pieces that somebody else reads, so that one pass over a file serves several purposes.
 *
 * Keeps four bytes a channel and 10 ms, nothing else that grows.
 *
 * @example
 * ```ts
 * const accumulator = new SurveyAccumulator(recording.sampleRateHz, recording.channelCount);
 * accumulator.add(recording.read(0, 65536)); // and so on, in order and without gaps
 * const survey = accumulator.finish();
 * ```
 */
export class SurveyAccumulator {
  private readonly sampleRateHz: number;
  private readonly blockFrames: number;
  private readonly channels: ChannelAccumulator[];
  private readonly blocksNotFinite = new Set<number>();
  private frameCount = 0;
  private gapCount = 0;
  private leftTimesRight = 0;
  private leftTimesRightCount = 0;

  constructor(sampleRateHz: number, channelCount: number) {
    this.sampleRateHz = sampleRateHz;
    this.blockFrames = Math.max(1, Math.round(sampleRateHz * BLOCK_SECONDS));
    this.channels = Array.from(
      { length: channelCount },
      () =>
        new ChannelAccumulator(this.blockFrames, (block) => {
          this.blocksNotFinite.add(block);
          this.gapCount++;
        }),
    );
  }

  /** Takes in the next frames: one array a channel, all of the same length. */
  add(piece: readonly Float32Array[]): void {
    this.frameCount += piece[0]?.length ?? 0;
    const gapsBefore = this.gapCount;
    const bytes = (piece[0]?.length ?? 0) * Float32Array.BYTES_PER_ELEMENT;
    const at = kernels().scratch(this.channels.length * bytes, ScratchUser.survey);
    for (const [c, channel] of this.channels.entries()) {
      kernels().f32.set(piece[c], (at + c * bytes) / Float32Array.BYTES_PER_ELEMENT);
      channel.add(piece[c], at + c * bytes);
    }
    if (this.channels.length > 1) {
      const hasGaps = this.gapCount > gapsBefore;
      const { sum, count } = hasGaps
        ? possibleProducts(piece[0], piece[1])
        : { sum: kernels().functions.productSum(at, at + bytes, piece[0].length), count: piece[0].length };
      this.leftTimesRight += sum;
      this.leftTimesRightCount += count;
    }
  }

  /** Closes the last block and gives the survey. Call once. */
  finish(): RecordingSurvey {
    const channels = this.channels.map((channel) => channel.finish(this.sampleRateHz));
    const blockNotFinite = new Uint8Array(Math.ceil(this.frameCount / this.blockFrames));
    for (const block of this.blocksNotFinite) blockNotFinite[block] = 1;
    const [left, right] = channels;
    const rmsProduct = channels.length > 1 ? left.rms * right.rms : 0;
    return {
      sampleRateHz: this.sampleRateHz,
      channelCount: channels.length,
      frameCount: this.frameCount,
      blockFrames: this.blockFrames,
      channels,
      blockNotFinite,
      leftRightCorrelation:
        rmsProduct > 0
          ? (this.leftTimesRight / this.leftTimesRightCount - left.dcMean * right.dcMean) / rmsProduct
          : null,
    };
  }
}

/** Sum of the products of samples that are both possible, and how many there are. */
function possibleProducts(left: Float32Array, right: Float32Array): { sum: number; count: number } {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < left.length; i++) {
    if (!(Math.abs(left[i]) <= LARGEST_SAMPLE && Math.abs(right[i]) <= LARGEST_SAMPLE)) continue;
    sum += left[i] * right[i];
    count++;
  }
  return { sum, count };
}
