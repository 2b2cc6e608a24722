/** Collects blocks of any length into steps of one length, so that nothing behind it can depend on the blocks. */
export class SteppedBlocks {
  private readonly step: readonly Float32Array[];
  private readonly stepFrames: number;
  private filled = 0;

  constructor(channelCount: number, stepFrames: number) {
    this.stepFrames = stepFrames;
    this.step = Array.from({ length: channelCount }, () => new Float32Array(stepFrames));
  }

  /** @param onStep - sees every step that is full; its arrays are used again for the next one */
  push(channels: readonly Float32Array[], onStep: (step: readonly Float32Array[]) => void): void {
    const length = channels[0].length;
    for (let at = 0; at < length; ) {
      const count = Math.min(length - at, this.stepFrames - this.filled);
      for (const [c, channel] of channels.entries()) {
        this.step[c].set(channel.subarray(at, at + count), this.filled);
      }
      at += count;
      this.filled += count;
      if (this.filled < this.stepFrames) continue;
      this.filled = 0;
      onStep(this.step);
    }
  }
}
