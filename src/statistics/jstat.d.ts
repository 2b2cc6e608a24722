declare module "jstat" {
  const jstat: {
    chisquare: { inv(probability: number, degreesOfFreedom: number): number };
    studentt: { inv(probability: number, degreesOfFreedom: number): number };
    /** The regularised incomplete beta function I_x(a, b). */
    ibeta(x: number, a: number, b: number): number;
    /** ln of the gamma function. */
    gammaln(x: number): number;
    /** The error function. */
    erf(x: number): number;
  };
  export default jstat;
}
