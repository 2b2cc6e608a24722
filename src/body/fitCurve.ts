import { addScaled } from "../signal/addScaled.js";
import { cholesky, forwardSolved } from "../statistics/cholesky.js";
import type { AveragedPartial } from "./averagedPartials.js";
import { curveCovariance } from "./curveCovariance.js";

/** What a fit takes as given. */
export interface CurveSpreads {
  /** How far the body's curve moves within one octave, as a standard deviation in dB. */
  readonly wanderDb: number;
  /** Standard deviation of a partial about the curve and its string, in dB. */
  readonly scatterDb: number;
  /** Standard deviation of a string's own slope about 1/n, in dB an octave. */
  readonly stringSlopeDb: number;
}

/** The curve's band averages, but for one constant common to all. */
export interface CurveFit {
  readonly meansDb: Float64Array;
  /** Row by row, bands * bands. Only variances of differences mean anything. */
  readonly covariance: Float64Array;
}

/** How well spreads explain the partials, and the curve that follows from them: most of the work, and wanted of the likely ones only. */
export interface SpreadsFit {
  /** Restricted log likelihood of the spreads, but for a constant. */
  readonly logLikelihood: number;
  predicted(): CurveFit;
}

/**
 * Best linear unbiased prediction of the curve's third-octave averages: level + 20 lg n = strength of the string (free) + its
 * slope times log2 n (random) + curve (random walk in log frequency) + scatter, all of it in one generalised least squares (universal
 * kriging, Matheron 1969; restricted likelihood: Patterson & Thompson 1971, Biometrika 58).
 *
 * @param bands - indices of `thirdOctaveBands` to be predicted
 * @returns a function of the spreads; null where rounding leaves nothing to solve
 */
export function fitCurve(
  partials: readonly AveragedPartial[],
  bands: readonly number[],
): (spreads: CurveSpreads) => SpreadsFit | null {
  const count = partials.length;
  const names = [...new Set(partials.map(({ string }) => string))];
  const indicators = names.map((name) =>
    Float64Array.from(partials, ({ string }) => (string === name ? 1 : 0)),
  );
  const levelsDb = Float64Array.from(partials, ({ evenedDb }) => evenedDb);
  const towardBands = bands.map((band) =>
    Float64Array.from(partials, ({ frequencyHz }) => curveCovariance.pointAndBand(frequencyHz, band)),
  );
  const wandering = new Float64Array(count * count);
  const sloping = new Float64Array(count * count);
  for (const [i, one] of partials.entries())
    for (const [k, other] of partials.slice(0, i + 1).entries()) {
      wandering[i * count + k] = curveCovariance.points(one.frequencyHz, other.frequencyHz);
      if (one.string === other.string)
        sloping[i * count + k] = Math.log2(one.number) * Math.log2(other.number);
    }

  return ({ wanderDb, scatterDb, stringSlopeDb }) => {
    const wander = wanderDb ** 2;
    const slope = stringSlopeDb ** 2;
    const matrix = new Float64Array(count * count);
    addScaled(matrix, wandering, wander);
    addScaled(matrix, sloping, slope);
    for (let i = 0; i < count; i++) matrix[i * count + i] += scatterDb ** 2 + partials[i].noiseSdDb ** 2;
    const factor = cholesky(matrix, count);
    if (factor === null) return null;
    const strings = indicators.map((column) => forwardSolved(factor, column));
    const levels = forwardSolved(factor, levelsDb);

    const size = names.length;
    const gram = cholesky(
      Float64Array.from({ length: size * size }, (_, i) =>
        dot(strings[Math.floor(i / size)], strings[i % size]),
      ),
      size,
    );
    if (gram === null) return null;
    // The strengths are projected out of everything by the factor of their Gram matrix.
    const along = (column: Float64Array) =>
      forwardSolved(
        gram,
        Float64Array.from(strings, (string) => dot(string, column)),
      );
    const levelsAlong = along(levels);
    const rest = dot(levels, levels) - dot(levelsAlong, levelsAlong);
    const predicted = (): CurveFit => {
      const towards = towardBands.map((column) =>
        forwardSolved(
          factor,
          column.map((value) => wander * value),
        ),
      );
      const towardsAlong = towards.map(along);
      const covariance = new Float64Array(bands.length ** 2);
      for (const [i, first] of bands.entries())
        for (let k = 0; k <= i; k++) {
          const shared =
            wander * curveCovariance.bands(first, bands[k]) -
            dot(towards[i], towards[k]) +
            dot(towardsAlong[i], towardsAlong[k]);
          covariance[i * bands.length + k] = shared;
          covariance[k * bands.length + i] = shared;
        }
      return {
        meansDb: Float64Array.from(
          towards,
          (column, i) => dot(column, levels) - dot(towardsAlong[i], levelsAlong),
        ),
        covariance,
      };
    };
    return {
      logLikelihood: -logDiagonal(factor, count) - logDiagonal(gram, size) - rest / 2,
      predicted,
    };
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function logDiagonal(factor: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += Math.log(factor[i * size + i]);
  return sum;
}
