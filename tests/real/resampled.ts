/** Samples on either side that each new one is made of. */
const REACH = 48;

/**
 * The same sound at another rate, by a sinc under a Hann window (Oppenheim & Schafer, Discrete-Time Signal Processing: exact
 * for an endless sinc). Times are exact, so no pitch is moved; made for a band that ends well below half of either rate.
 */
export function resampled(samples: Float32Array, fromHz: number, toHz: number): Float32Array {
  if (fromHz === toHz) return samples;
  const cutoff = Math.min(1, toHz / fromHz);
  return Float32Array.from({ length: Math.floor((samples.length * toHz) / fromHz) }, (_, i) => {
    const at = (i * fromHz) / toHz;
    const first = Math.max(0, Math.ceil(at - REACH));
    const last = Math.min(samples.length - 1, Math.floor(at + REACH));
    let sum = 0;
    for (let k = first; k <= last; k++) {
      const angle = Math.PI * (at - k) * cutoff;
      const sinc = angle === 0 ? 1 : Math.sin(angle) / angle;
      sum += samples[k] * cutoff * sinc * (0.5 + 0.5 * Math.cos((Math.PI * (at - k)) / REACH));
    }
    return sum;
  });
}
