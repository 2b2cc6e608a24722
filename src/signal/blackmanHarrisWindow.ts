/** Periodic four-term Blackman-Harris window of `size` points (Harris 1978): side lobes 92 dB down, main lobe 4 bins to either side. */
export function blackmanHarrisWindow(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => {
    const angle = (2 * Math.PI * i) / size;
    return (
      0.35875 - 0.48829 * Math.cos(angle) + 0.14128 * Math.cos(2 * angle) - 0.01168 * Math.cos(3 * angle)
    );
  });
}
