import jstat from "jstat";

/** Probability that a standard normal number lies at or below `z` (error function of the jstat package, about 1e-15). */
export function normalCumulative(z: number): number {
  return 0.5 * (1 + jstat.erf(z / Math.SQRT2));
}
