/** Periodic Hann window of `size` points (Harris 1978), 0 at its first point and 1 in the middle. */
export function hannWindow(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size));
}
