/** The last values of an endless series, by their number in it; memory does not grow. */
export class RollingValues {
  private readonly capacity: number;
  private readonly values: Float32Array;
  private count = 0;
  /** Number of the first value held. */
  private first = 0;

  /** @param capacity - so many of the last values are there at least */
  constructor(capacity: number) {
    this.capacity = capacity;
    this.values = new Float32Array(2 * capacity);
  }

  /** How many values came in so far: the number of the next one. */
  get end(): number {
    return this.first + this.count;
  }

  /** Takes the next values in, `capacity` at most. */
  push(added: Float32Array): void {
    if (this.count + added.length > this.values.length) {
      const kept = Math.min(this.count, this.capacity);
      this.values.copyWithin(0, this.count - kept, this.count);
      this.first += this.count - kept;
      this.count = kept;
    }
    this.values.set(added, this.count);
    this.count += added.length;
  }

  /** A copy of the values numbered from `from` up to `to`; 0 for those before the first. */
  slice(from: number, to: number): Float32Array {
    const copied = new Float32Array(Math.max(0, to - from));
    const held = Math.max(from, this.first);
    if (held < to) copied.set(this.values.subarray(held - this.first, to - this.first), held - from);
    return copied;
  }
}
