/**
 * Working memory that is used again and again. New typed arrays are filled with zeros, lie outside of the heap and make the
 * garbage collector run: in ten minutes of strings together they were 1.5 GB.
 */
export class Scratch {
  private memory = new Float64Array(0);

  /** `length` values of which nothing is promised, until it is asked for the next ones. */
  take(length: number): Float64Array {
    if (this.memory.length < length) this.memory = new Float64Array(length);
    return this.memory.length === length ? this.memory : this.memory.subarray(0, length);
  }
}
