/** The pitch that a synthesised string really had at each moment. */
export class PitchCourse {
  /** What the mean of an endless take would be, in hertz. */
  readonly underlyingHz: number;
  private readonly sampleRateHz: number;
  private readonly phaseCycles: Float64Array;

  /** @param phaseCycles - phase of the fundamental in cycles at each sample, and one past the last */
  constructor(underlyingHz: number, sampleRateHz: number, phaseCycles: Float64Array) {
    this.underlyingHz = underlyingHz;
    this.sampleRateHz = sampleRateHz;
    this.phaseCycles = phaseCycles;
  }

  /** Mean frequency in hertz between two times in seconds: the phase gone through over the time it took. */
  meanHz(startSeconds: number, endSeconds: number): number {
    return (this.phaseAt(endSeconds) - this.phaseAt(startSeconds)) / (endSeconds - startSeconds);
  }

  private phaseAt(seconds: number): number {
    const last = this.phaseCycles.length - 1;
    const position = Math.min(last, Math.max(0, seconds * this.sampleRateHz));
    const index = Math.min(last - 1, Math.floor(position));
    const share = position - index;
    return this.phaseCycles[index] * (1 - share) + this.phaseCycles[index + 1] * share;
  }
}
