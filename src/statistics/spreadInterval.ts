import jstat from "jstat";

/**
 * 95 % interval of a standard deviation of independent normal values: s sqrt((n - 1) / chi2), chi2 the 97.5 and 2.5 % points of
 * chi-squared with n - 1 degrees of freedom (Montgomery, Design and Analysis of Experiments; from memory).
 *
 * @returns null for fewer than two values
 */
export function spreadInterval(standardDeviation: number, count: number): readonly [number, number] | null {
  const freedom = count - 1;
  if (freedom < 1) return null;
  const end = (probability: number) =>
    standardDeviation * Math.sqrt(freedom / jstat.chisquare.inv(probability, freedom));
  return [end(0.975), end(0.025)];
}
