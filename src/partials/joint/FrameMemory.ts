/** Values a piece of memory: some dozens of frames' parts. */
const PIECE_VALUES = 1 << 13;
/** Of what was given back no more is kept than a long passage needs: 16 MB. */
const MOST_FREE = 256;
const free: Float64Array[] = [];
/** Of larger arrays the last few. */
const MOST_LARGE = 4;
let freeLarge: Float64Array[] = [];

/**
 * Memory for the frames of one passage, handed out bit by bit from larger pieces. An array of its own for each of the thousands of
 * frames that a passage needs keeps the garbage collector busy, and memory that was never used before comes slowly.
 */
export class FrameMemory {
  private readonly pieces: Float64Array[] = [];
  private readonly large: Float64Array[] = [];
  private used = PIECE_VALUES;

  /** A copy of values. */
  keep(values: Float64Array): Float64Array {
    const { length } = values;
    if (length > PIECE_VALUES) return values.slice();
    if (this.used + length > PIECE_VALUES) {
      this.pieces.push(free.pop() ?? new Float64Array(PIECE_VALUES));
      this.used = 0;
    }
    const kept = this.pieces[this.pieces.length - 1].subarray(this.used, this.used + length);
    kept.set(values);
    this.used += length;
    return kept;
  }

  /** A larger array by itself, of which nothing is promised. */
  take(length: number): Float64Array {
    const found = freeLarge.findIndex((one) => one.length === length);
    const taken = found < 0 ? new Float64Array(length) : freeLarge.splice(found, 1)[0];
    this.large.push(taken);
    return taken;
  }

  /** Gives all of it back, to be used again at once: for whoever holds none of what was kept. Without it, it goes with its last user. */
  release(): void {
    free.push(...this.pieces.splice(0, MOST_FREE - free.length));
    this.pieces.length = 0;
    freeLarge = [...this.large.splice(0), ...freeLarge].slice(0, MOST_LARGE);
    this.used = PIECE_VALUES;
  }
}
