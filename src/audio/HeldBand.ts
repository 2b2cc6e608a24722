/** A longer recording is read from its file again where it is needed, so that memory does not grow with it. */
const MOST_BYTES = 64 * 2 ** 20;

/**
 * The analysis band of a whole recording, kept from the pass that tracks it: 32 kB a second and channel. Reading and
 * decimating every stretch again cost a tenth of all time.
 */
export class HeldBand {
  /** One array a channel, as long as the whole band. */
  readonly channels: readonly Float32Array[];
  private filled: number;

  /** @param filled - how many samples of each channel are there already */
  constructor(channels: readonly Float32Array[], filled = 0) {
    this.channels = channels;
    this.filled = filled;
  }

  /**
   * @param outputCount - samples a channel after decimation
   * @param memory - where from; memory that other threads see, perhaps
   * @returns null where that is more than is kept
   */
  static forRecording(
    channelCount: number,
    outputCount: number,
    memory: (byteLength: number) => ArrayBufferLike = (byteLength) => new ArrayBuffer(byteLength),
  ): HeldBand | null {
    const byteLength = outputCount * Float32Array.BYTES_PER_ELEMENT;
    if (channelCount * byteLength > MOST_BYTES) return null;
    return new HeldBand(Array.from({ length: channelCount }, () => new Float32Array(memory(byteLength))));
  }

  /** How many samples of each channel are there. */
  get filledCount(): number {
    return this.filled;
  }

  /** Takes the next decimated samples of every channel; what lies beyond the end of the recording is left out. */
  add(piece: readonly Float32Array[]): void {
    for (const [c, channel] of this.channels.entries()) {
      channel.set(piece[c].subarray(0, Math.max(0, channel.length - this.filled)), this.filled);
    }
    this.filled = Math.min(this.channels[0]?.length ?? 0, this.filled + piece[0].length);
  }

  /** Samples `first` to `last` of every channel, copied; null where they are not all here. */
  slice(first: number, last: number): Float32Array[] | null {
    if (first < 0 || last > this.filled) return null;
    return this.channels.map((channel) => channel.slice(first, last));
  }
}
