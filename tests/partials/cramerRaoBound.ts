/**
 * The Cramer-Rao bound of a harmonic series of constant pitch in white noise, as a standard deviation in hertz:
 * var(w0) >= 24 s^2 / (N (N^2 - 1) sum n^2 A_n^2), w0 in radians a sample, A_n peak amplitudes, s^2 the noise variance
 * (Rife & Boorstyn 1974, IEEE Trans. Inf. Theory 20, for one sine; Christensen & Jakobsson, Multi-Pitch Estimation,
 * 2009, and Nielsen et al. 2017, Signal Processing 135, for a series).
 */
export function cramerRaoBoundHz(
  amplitudes: readonly number[],
  noiseDeviation: number,
  sampleCount: number,
  sampleRateHz: number,
): number {
  const weighted = amplitudes.reduce((sum, amplitude, index) => sum + ((index + 1) * amplitude) ** 2, 0);
  const variance = (24 * noiseDeviation ** 2) / (sampleCount * (sampleCount ** 2 - 1) * weighted);
  return (Math.sqrt(variance) * sampleRateHz) / (2 * Math.PI);
}

/** The same in cents of a fundamental. */
export const hertzToCents = (hertz: number, frequencyHz: number) => (1200 / Math.LN2) * (hertz / frequencyHz);
