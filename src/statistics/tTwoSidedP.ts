import jstat from "jstat";

/**
 * Probability that Student's t lies as far from 0 as `t` or farther, on either side.
 *
 * By the incomplete beta function, I_x(df / 2, 1 / 2) at x = df / (df + t^2) (Abramowitz & Stegun 26.7.1): small p values keep their
 * digits, which 1 minus a cumulative probability would lose. Right to about 3e-7 of its value (jstat).
 *
 * @param degreesOfFreedom - positive, need not be whole
 */
export function tTwoSidedP(t: number, degreesOfFreedom: number): number {
  return jstat.ibeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);
}
