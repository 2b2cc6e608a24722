/** A take asks for a handful of sizes, again and again. */
const MOST_KNOWN = 16;
const known = new Map<number, Float64Array>();

/** Periodic Hann window of `size` points (Harris 1978), 0 at its first point and 1 in the middle. The same array each time: not to be changed. */
export function hannWindow(size: number): Float64Array {
  let window = known.get(size);
  if (window === undefined) {
    window = new Float64Array(size);
    for (let i = 0; i < size; i++) window[i] = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size);
    if (known.size >= MOST_KNOWN) known.clear();
    known.set(size, window);
  }
  return window;
}
