/**
 * Steep low-pass: a windowed sinc with the Blackman window, 6 dB down at `cutoffHz`, its stop band 74 dB down; it falls over
 * about `transitionHz` (5.5 sample rates over its length; Oppenheim & Schafer, Discrete-Time Signal Processing, from memory).
 */
export function lowPassed(
  samples: Float64Array,
  rateHz: number,
  cutoffHz: number,
  transitionHz: number,
): Float64Array {
  const half = Math.round((2.75 * rateHz) / transitionHz);
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const x = (i - half) / half;
    const window = 0.42 + 0.5 * Math.cos(Math.PI * x) + 0.08 * Math.cos(2 * Math.PI * x);
    const angle = (2 * Math.PI * cutoffHz * (i - half)) / rateHz;
    return ((2 * cutoffHz) / rateHz) * window * (i === half ? 1 : Math.sin(angle) / angle);
  });
  const padded = new Float64Array(samples.length + 2 * half);
  padded.set(samples, half);
  return Float64Array.from(samples, (_, i) => {
    let sum = 0;
    for (let k = 0; k < taps.length; k++) sum += taps[k] * padded[i + k];
    return sum;
  });
}
