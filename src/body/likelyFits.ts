import type { AveragedPartial } from "./averagedPartials.js";
import { STRING_SLOPE_DB } from "./bodyPolicy.js";
import { type CurveFit, fitCurve, type SpreadsFit } from "./fitCurve.js";

/** A fit with the spreads it took for given, and how likely they are. */
export interface LikelyFit {
  readonly fit: CurveFit;
  readonly scatterDb: number;
  /** The weights of all fits sum to 1. */
  readonly weight: number;
}

/** Our policy: bodies move by 7 to 20 dB within an octave. Less would flatten the steep fall below the lowest mode. */
const WANDERS_DB = [7, 10, 14, 20];
const SCATTERS_DB = [0.3, 0.6, 1, 1.5, 2.2, 3.3, 5, 7.5];
/** A fit so much less likely (in natural logarithms) than the best weighs less than 1 in 1000. */
const NEGLIGIBLE = 7;

/**
 * Fits with all spreads that the partials leave likely, so that nothing hangs on one choice: equal prior weight on a grid, times the
 * restricted likelihood. For each wander the scatter is climbed to its best and left on both sides where it weighs nothing.
 */
export function likelyFits(partials: readonly AveragedPartial[], bands: readonly number[]): LikelyFit[] {
  const fitWith = fitCurve(partials, bands);
  const all: { readonly fit: SpreadsFit; readonly scatterDb: number }[] = [];
  let start = 2;
  for (const wanderDb of WANDERS_DB) {
    const fits = new Map<number, SpreadsFit | null>();
    const likelihood = (index: number) => {
      if (index < 0 || index >= SCATTERS_DB.length) return Number.NEGATIVE_INFINITY;
      if (!fits.has(index))
        fits.set(index, fitWith({ wanderDb, scatterDb: SCATTERS_DB[index], stringSlopeDb: STRING_SLOPE_DB }));
      return fits.get(index)?.logLikelihood ?? Number.NEGATIVE_INFINITY;
    };
    for (const step of [1, -1]) while (likelihood(start + step) > likelihood(start)) start += step;
    for (const step of [1, -1]) {
      let index = start;
      while (likelihood(index) > likelihood(start) - NEGLIGIBLE) index += step;
    }
    for (const [index, fit] of fits) if (fit !== null) all.push({ fit, scatterDb: SCATTERS_DB[index] });
  }
  const best = Math.max(...all.map(({ fit }) => fit.logLikelihood));
  const likely = all.filter(({ fit }) => fit.logLikelihood > best - NEGLIGIBLE);
  const likelihoods = likely.map(({ fit }) => Math.exp(fit.logLikelihood - best));
  const total = likelihoods.reduce((sum, value) => sum + value, 0);
  return likely.map(({ fit, scatterDb }, i) => ({
    fit: fit.predicted(),
    scatterDb,
    weight: likelihoods[i] / total,
  }));
}
