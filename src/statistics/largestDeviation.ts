import { SeededRandom } from "./SeededRandom.js";

/** The law of a difference curve under repetition, as far as a few takes show it. */
export interface DeviationModel {
  readonly pointCount: number;
  /** Correlation between any two points of one take's curve, 0 to 1. */
  readonly correlation: number;
  readonly freedomA: number;
  readonly freedomB: number;
  /** Share of side A in the variance of the difference, 0 to 1. */
  readonly shareA: number;
  readonly confidence: number;
  readonly draws: number;
  readonly seed: number;
}

/**
 * The studentised deviation that the worst point of a curve stays within at the given confidence.
 *
 * Drawn: each take is a normal curve whose points share one part (the square root of the correlation) and have one of their own;
 * of the difference of means over its standard error, made point by point from the takes' own scatter, the largest is kept.
 */
export function largestDeviation(model: DeviationModel): number {
  const { pointCount, freedomA, freedomB, shareA } = model;
  const random = new SeededRandom(model.seed);
  const common = Math.sqrt(model.correlation);
  const own = Math.sqrt(1 - model.correlation);
  const deviation = new Float64Array(pointCount);
  const variance = new Float64Array(pointCount);
  const addSquares = (freedom: number, share: number) => {
    for (let i = 0; i < freedom; i++) {
      const shared = common * random.normal();
      for (let k = 0; k < pointCount; k++)
        variance[k] += (share / freedom) * (shared + own * random.normal()) ** 2;
    }
  };
  const largest = Float64Array.from({ length: model.draws }, () => {
    const shared = common * random.normal();
    for (let k = 0; k < pointCount; k++) deviation[k] = shared + own * random.normal();
    variance.fill(0);
    addSquares(freedomA, shareA);
    addSquares(freedomB, 1 - shareA);
    let worst = 0;
    for (let k = 0; k < pointCount; k++) worst = Math.max(worst, deviation[k] ** 2 / variance[k]);
    return Math.sqrt(worst);
  }).sort();
  return largest[Math.min(model.draws - 1, Math.ceil(model.confidence * (model.draws + 1)) - 1)];
}
