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
    for (const [c, channel] of this.channels.entries()) channel.add(piece[c]);
    if (this.channels.length > 1) this.correlate(piece[0], piece[1], this.gapCount > gapsBefore);
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

  private correlate(left: Float32Array, right: Float32Array, hasGaps: boolean): void {
    let sum = 0;
    let count = 0;
    for (let i = 0; i < left.length; i++) {
      if (hasGaps && !(Math.abs(left[i]) <= LARGEST_SAMPLE && Math.abs(right[i]) <= LARGEST_SAMPLE)) continue;
      sum += left[i] * right[i];
      count++;
    }
    this.leftTimesRight += sum;
    this.leftTimesRightCount += count;
  }
}
