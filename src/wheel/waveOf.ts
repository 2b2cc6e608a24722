import { tQuantile } from "../statistics/tQuantile.js";
import type { WhitenedFit } from "./whitenedFit.js";

/** One wave of a fit. */
export interface Wave {
  readonly cosine: number;
  readonly sine: number;
  /** Peak. */
  readonly amount: number;
  /** Where its own cycle is highest, radians. */
  readonly phase: number;
  readonly amountError: number;
  readonly phaseError: number;
  /** Chance of a wave as strong where there is none. */
  readonly probability: number;
}

/**
 * Reads one wave of a fit: the cosine at `index` of the coefficients, the sine after it.
 *
 * The chance is that of F with 2 and df degrees of freedom, which has a closed form: (1 + 2 F / df)^(-df / 2).
 */
export function waveOf({ coefficients, covariance, degreesOfFreedom }: WhitenedFit, index: number): Wave {
  const size = coefficients.length;
  const cosine = coefficients[index];
  const sine = coefficients[index + 1];
  const cc = covariance[index * size + index];
  const cs = covariance[(index + 1) * size + index];
  const ss = covariance[(index + 1) * size + index + 1];
  const amount = Math.hypot(cosine, sine);
  const determinant = Math.max(cc * ss - cs * cs, 1e-300);
  const squares = (ss * cosine * cosine - 2 * cs * cosine * sine + cc * sine * sine) / determinant;
  const [x, y] = amount > 0 ? [cosine / amount, sine / amount] : [1, 0];
  return {
    cosine,
    sine,
    amount,
    phase: Math.atan2(sine, cosine),
    amountError: Math.sqrt(Math.max(0, x * x * cc + 2 * x * y * cs + y * y * ss)),
    phaseError: Math.sqrt(Math.max(0, y * y * cc - 2 * x * y * cs + x * x * ss)) / Math.max(amount, 1e-12),
    probability: (1 + squares / degreesOfFreedom) ** (-degreesOfFreedom / 2),
  };
}

/** Half the 95 % width in standard errors. */
export function tFactor(degreesOfFreedom: number): number {
  return tQuantile(0.975, degreesOfFreedom);
}
