import jstat from "jstat";
import { gaussLegendre } from "./gaussLegendre.js";
import { normalCumulative } from "./normalCumulative.js";

const NODES = 96;
/** A chi variable has a standard deviation below 1 / sqrt(2): so far from sqrt(df) lies less than 1e-25 of it. */
const REACH = 8;

/**
 * Probability that a noncentral t lies beyond a limit on either side: |(Z + shift) / (chi / sqrt(df))| > limit.
 *
 * By its definition: given chi the rest is normal, and chi is integrated out (Gauss-Legendre over the part of its density that
 * matters). No series, so no cancellation at large shifts.
 *
 * @param degreesOfFreedom - 1 or more
 * @returns a function of the limit (0 or more) and of the shift (the noncentrality, in standard errors)
 */
export function beyondProbability(degreesOfFreedom: number): (limit: number, shift: number) => number {
  const middle = Math.sqrt(degreesOfFreedom);
  const { nodes, weights } = gaussLegendre(NODES, Math.max(0, middle - REACH), middle + REACH);
  const logScale = (degreesOfFreedom / 2 - 1) * Math.LN2 + jstat.gammaln(degreesOfFreedom / 2);
  const shares = weights.map((weight, i) => {
    const chi = nodes[i];
    return weight * Math.exp((degreesOfFreedom - 1) * Math.log(chi) - (chi * chi) / 2 - logScale);
  });
  return (limit, shift) => {
    let within = 0;
    for (let i = 0; i < NODES; i++) {
      const reach = (limit * nodes[i]) / middle;
      within += shares[i] * (normalCumulative(reach - shift) - normalCumulative(-reach - shift));
    }
    return Math.min(1, Math.max(0, 1 - within));
  };
}
