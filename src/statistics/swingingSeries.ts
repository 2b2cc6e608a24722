import { backSolved, cholesky, forwardSolved } from "./cholesky.js";

/** How a series moves about its means. */
export interface Movement {
  readonly rateHz: number;
  /** Variance of the swing against that of the random movement. */
  readonly swingShare: number;
  /** Over this time the swing's amplitude and phase change. */
  readonly swingSeconds: number;
  /** Correlation time of the random movement. */
  readonly randomSeconds: number;
}

/** Means of groups of a series, with the swing and the random movement allowed for. */
export interface GroupMeans {
  readonly means: Float64Array;
  /** Covariance of the means, row by row. */
  readonly covariance: Float64Array;
  /** Variance of the random movement. */
  readonly variance: number;
  /** Logarithm of the restricted likelihood, a constant apart. */
  readonly likelihood: number;
}

/** Of the random movement's variance, what is new at each value: without it the first and last value of a group decide its mean. */
const WHITE_SHARE = 0.2;

/**
 * Generalised least squares of group means in a series that swings at one rate, its amplitude and phase drifting slowly, and
 * moves at random besides (first-order Gauss-Markov).
 *
 * Both movements are a linear state of three numbers, so the Kalman filter turns values and group columns alike into
 * independent innovations (Rosenberg 1973; Harvey 1989, Forecasting, Structural Time Series Models and the Kalman Filter,
 * section 3.4; from memory), on which plain least squares is the best there is. With a swing that never drifts this is the
 * least-squares fit of one sinusoid and all means at once.
 *
 * @param seconds - time of each value, rising
 * @param groups - to which group each belongs, 0 to `groupCount` - 1, none of them empty
 * @returns null where the values don't determine the means
 */
export function swingingSeries(
  seconds: ArrayLike<number>,
  values: ArrayLike<number>,
  groups: ArrayLike<number>,
  groupCount: number,
  movement: Movement,
): GroupMeans | null {
  const count = values.length;
  const columns = groupCount + 1;
  const { rateHz, swingShare, swingSeconds, randomSeconds } = movement;
  // Predicted state of every column (the last one is that of the values): two of the swing, one of the random movement.
  const state = new Float64Array(3 * columns);
  let [p00, p01, p02, p11, p12, p22] = [swingShare, 0, 0, swingShare, 0, 1];
  const matrix = new Float64Array(groupCount * groupCount);
  const right = new Float64Array(groupCount);
  const innovation = new Float64Array(columns);
  const active: number[] = [];
  const isActive = new Uint8Array(groupCount);
  let squares = 0;
  let logs = 0;
  for (let i = 0; i < count; i++) {
    if (i > 0) {
      const gap = Math.max(0, seconds[i] - seconds[i - 1]);
      const keep = Math.exp(-gap / swingSeconds);
      const c = keep * Math.cos(2 * Math.PI * rateHz * gap);
      const s = keep * Math.sin(2 * Math.PI * rateHz * gap);
      const hold = Math.exp(-gap / randomSeconds);
      for (let j = 0; j < columns; j++) {
        const x = state[3 * j];
        const y = state[3 * j + 1];
        state[3 * j] = c * x - s * y;
        state[3 * j + 1] = s * x + c * y;
        state[3 * j + 2] *= hold;
      }
      const added = swingShare * (1 - keep * keep);
      const q00 = c * c * p00 - 2 * c * s * p01 + s * s * p11 + added;
      const q11 = s * s * p00 + 2 * c * s * p01 + c * c * p11 + added;
      const q01 = c * s * (p00 - p11) + (c * c - s * s) * p01;
      const q02 = hold * (c * p02 - s * p12);
      const q12 = hold * (s * p02 + c * p12);
      p22 = hold * hold * p22 + 1 - hold * hold;
      [p00, p01, p02, p11, p12] = [q00, q01, q02, q11, q12];
    }
    const f = p00 + 2 * p02 + p22 + WHITE_SHARE;
    const k0 = (p00 + p02) / f;
    const k1 = (p01 + p12) / f;
    const k2 = (p02 + p22) / f;
    const group = groups[i];
    if (isActive[group] === 0) {
      isActive[group] = 1;
      active.push(group);
    }
    for (const j of [...active, groupCount]) {
      const observed = j === groupCount ? values[i] : j === group ? 1 : 0;
      const v = observed - state[3 * j] - state[3 * j + 2];
      innovation[j] = v;
      state[3 * j] += k0 * v;
      state[3 * j + 1] += k1 * v;
      state[3 * j + 2] += k2 * v;
    }
    const a0 = p00 + p02;
    const a1 = p01 + p12;
    const a2 = p02 + p22;
    p00 -= k0 * a0;
    p01 -= k0 * a1;
    p02 -= k0 * a2;
    p11 -= k1 * a1;
    p12 -= k1 * a2;
    p22 -= k2 * a2;
    const y = innovation[groupCount];
    for (const j of active) {
      const weighted = innovation[j] / f;
      right[j] += weighted * y;
      for (const k of active) matrix[j * groupCount + k] += weighted * innovation[k];
    }
    squares += (y * y) / f;
    logs += Math.log(f);
  }
  const factor = cholesky(matrix, groupCount);
  const freedom = count - groupCount;
  if (factor === null || freedom < 1) return null;
  const half = forwardSolved(factor, right);
  const means = backSolved(factor, half);
  const left = Math.max(1e-12, squares - half.reduce((sum, value) => sum + value * value, 0));
  const variance = left / freedom;
  let determinant = 0;
  for (let j = 0; j < groupCount; j++) determinant += 2 * Math.log(factor[j * groupCount + j]);
  const covariance = new Float64Array(groupCount * groupCount);
  for (let j = 0; j < groupCount; j++) {
    const unit = new Float64Array(groupCount);
    unit[j] = 1;
    const column = backSolved(factor, forwardSolved(factor, unit));
    for (let k = 0; k < groupCount; k++) covariance[k * groupCount + j] = variance * column[k];
  }
  return {
    means,
    covariance,
    variance,
    likelihood: -0.5 * (freedom * Math.log(variance) + logs + determinant),
  };
}
