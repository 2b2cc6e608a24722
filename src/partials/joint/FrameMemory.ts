/** Values a piece of memory: a few hundred frames of a few dozen partials. */
const PIECE_VALUES = 1 << 15;

/**
 * Memory for the frames of one passage, handed out bit by bit from larger pieces, which live as long as any of their bits: an
 * array of its own for each of the thousands of frames that a passage needs keeps the garbage collector busy.
 */
export class FrameMemory {
  private piece = new Float64Array(0);
  private used = 0;

  /** A copy of values. */
  keep(values: Float64Array): Float64Array {
    const { length } = values;
    if (this.used + length > this.piece.length) {
      this.piece = new Float64Array(Math.max(length, PIECE_VALUES));
      this.used = 0;
    }
    const kept = this.piece.subarray(this.used, this.used + length);
    kept.set(values);
    this.used += length;
    return kept;
  }
}
