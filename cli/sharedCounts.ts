/** Numbers that several threads see, changed and read by `Atomics` alone. */
export type SharedCounts = Int32Array<SharedArrayBuffer>;

/** So many counts, all 0. */
export function countsOf(size: number): SharedCounts {
  return new Int32Array(new SharedArrayBuffer(size * Int32Array.BYTES_PER_ELEMENT));
}

/** Adds 1 to a count and wakes who waits for it. */
export function countUp(counts: SharedCounts, place: number): void {
  Atomics.add(counts, place, 1);
  Atomics.notify(counts, place);
}
