import jstat from "jstat";
import { beyondProbability } from "./beyondProbability.js";
import { gaussLegendre } from "./gaussLegendre.js";
import { tQuantile } from "./tQuantile.js";
import { welchDegreesOfFreedom } from "./welchDegreesOfFreedom.js";

/** How two sides scatter, and how many takes each has. */
export interface TwoSides {
  /** Standard deviation from take to take. */
  readonly sdA: number;
  readonly sdB: number;
  /** Two or more. */
  readonly countA: number;
  readonly countB: number;
}

const NODES = 32;
/** The angle has a standard deviation of about 1 / sqrt(2 df): farther out lies less than 1e-15 of it. */
const REACH = 8;

/**
 * Power of Welch's two-sided test as a function of the true difference.
 *
 * Exact for normal takes: of the two sample variances, the share of one is a beta variable, and independent of their weighted sum, a
 * chi-square. Given the share, Welch's degrees of freedom (and so the limit) are fixed and the statistic is a scaled noncentral
 * t; the share is integrated out, in the angle whose squared sine it is. The t test with pooled variance has a little more power
 * at few takes (3.07 instead of 3.47 standard deviations at 3 takes a side), so its tables don't serve.
 *
 * @param significance - of the test: 0.05, or less where several measures are asked at once
 * @returns a function from the true difference to the probability that the test shows it
 */
export function welchPower(sides: TwoSides, significance: number): (difference: number) => number {
  const freedomA = sides.countA - 1;
  const freedomB = sides.countB - 1;
  const freedom = freedomA + freedomB;
  const varianceA = sides.sdA ** 2 / sides.countA;
  const varianceB = sides.sdB ** 2 / sides.countB;
  const variance = varianceA + varianceB;
  const middle = Math.atan(Math.sqrt(freedomA / freedomB));
  const reach = REACH / Math.sqrt(2 * freedom);
  const { nodes, weights } = gaussLegendre(
    NODES,
    Math.max(0, middle - reach),
    Math.min(Math.PI / 2, middle + reach),
  );
  const logBeta = jstat.gammaln(freedomA / 2) + jstat.gammaln(freedomB / 2) - jstat.gammaln(freedom / 2);
  const cases = Array.from(nodes, (angle, i) => {
    const sine = Math.sin(angle);
    const cosine = Math.cos(angle);
    const density =
      2 * Math.exp((freedomA - 1) * Math.log(sine) + (freedomB - 1) * Math.log(cosine) - logBeta);
    const partA = (freedom * varianceA * sine * sine) / freedomA;
    const partB = (freedom * varianceB * cosine * cosine) / freedomB;
    const limit = tQuantile(1 - significance / 2, welchDegreesOfFreedom(partA, freedomA, partB, freedomB));
    return { weight: weights[i] * density, limit: limit * Math.sqrt((partA + partB) / variance) };
  });
  const beyond = beyondProbability(freedom);
  return (difference) =>
    cases.reduce(
      (power, { weight, limit }) => power + weight * beyond(limit, difference / Math.sqrt(variance)),
      0,
    );
}
