/** A harmonic series of constant pitch. */
export interface SteadySeries {
  readonly frequencyHz: number;
  /** Peak amplitude of each partial, the fundamental first. */
  readonly amplitudes: readonly number[];
  /** Phase of each partial at the first sample, in radians. */
  readonly phases: readonly number[];
}

/**
 * The Cramer-Rao bound of the frequencies of several harmonic series that sound together in white noise, as standard
 * deviations in hertz. Frequencies, amplitudes and phases are all unknown.
 *
 * With x(t) = sum over k, n of a_kn cos(n w_k t) + b_kn sin(n w_k t) + e(t), e Gaussian of variance s^2 and independent
 * from sample to sample, the Fisher information of the unknowns is F = J'J / s^2, J holding the derivatives of x at all
 * samples: cos and sin for a and b (the same unknowns as amplitude and phase), and for the frequency
 * dx/dw_k = t sum over n of n (b_kn cos(n w_k t) - a_kn sin(n w_k t)). No unbiased estimate has a smaller variance than
 * the diagonal of the inverse of F (Rife & Boorstyn 1974, IEEE Trans. Inf. Theory 20, for one series of one partial;
 * Christensen & Jakobsson, Multi-Pitch Estimation, 2009, for several series). For far-apart series F falls apart into
 * one block a series, and `cramerRaoBoundHz` is what comes out; here nothing is left out, so partials may lie as close as
 * they like. Time is counted from the middle, in half durations, and the columns are scaled to length 1, which changes
 * nothing but rounding.
 */
export function jointCramerRaoBoundHz(
  series: readonly SteadySeries[],
  noiseDeviation: number,
  sampleCount: number,
  sampleRateHz: number,
): number[] {
  const columns = series.map((one) => frequencyColumn(one, sampleCount, sampleRateHz));
  for (const { frequencyHz, amplitudes } of series) {
    for (let n = 1; n <= amplitudes.length; n++) {
      const angle = (2 * Math.PI * n * frequencyHz) / sampleRateHz;
      columns.push(Float64Array.from({ length: sampleCount }, (_, i) => Math.cos(angle * i)));
      columns.push(Float64Array.from({ length: sampleCount }, (_, i) => Math.sin(angle * i)));
    }
  }
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)));
  const information = columns.map((a, i) =>
    Float64Array.from(columns.slice(0, i + 1), (b, j) => dot(a, b) / lengths[i] / lengths[j]),
  );
  const halfSeconds = sampleCount / sampleRateHz / 2;
  return series.map((_, k) => {
    const inRadians = (Math.sqrt(inverseDiagonal(information, k)) * noiseDeviation) / lengths[k];
    return inRadians / halfSeconds / (2 * Math.PI);
  });
}

/** Derivative of the sound by the frequency in radians a half duration. */
function frequencyColumn(
  { frequencyHz, amplitudes, phases }: SteadySeries,
  sampleCount: number,
  sampleRateHz: number,
): Float64Array {
  const middle = (sampleCount - 1) / 2;
  return Float64Array.from({ length: sampleCount }, (_, i) => {
    const angle = (2 * Math.PI * frequencyHz * i) / sampleRateHz;
    const sum = amplitudes.reduce(
      (total, amplitude, n) => total - (n + 1) * amplitude * Math.sin((n + 1) * angle + phases[n]),
      0,
    );
    return (sum * (i - middle)) / (sampleCount / 2);
  });
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** Element (k, k) of the inverse of a symmetric matrix, given as rows of its lower half: by F = LL', |L^-1 e_k|^2. */
function inverseDiagonal(lowerHalf: readonly Float64Array[], k: number): number {
  const size = lowerHalf.length;
  const factor = lowerHalf.map((row) => Float64Array.from(row));
  const solved = new Float64Array(size);
  let squares = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = lowerHalf[i][j];
      for (let m = 0; m < j; m++) sum -= factor[i][m] * factor[j][m];
      factor[i][j] = i === j ? Math.sqrt(sum) : sum / factor[j][j];
    }
    let value = i === k ? 1 : 0;
    for (let m = 0; m < i; m++) value -= factor[i][m] * solved[m];
    solved[i] = value / factor[i][i];
    squares += solved[i] ** 2;
  }
  return squares;
}
