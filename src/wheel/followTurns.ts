import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";
import { swingColumns } from "./swingColumns.js";
import { KNOT_SECONDS, type TurnPath, turnPath } from "./turnPath.js";
import { filterOf, type WhitenedFit, whitenedFit } from "./whitenedFit.js";

/** A path, and how well all series go with it. */
export interface FollowedTurns {
  readonly path: TurnPath;
  readonly fits: readonly WhitenedFit[];
  /** ln likelihood of all series, less what the freedom of the path costs (Laplace). */
  readonly evidence: number;
  /** Standard error of the mean rate over the passage, in hertz. */
  readonly rateError: number;
}

/** A player's rate wanders over this long (our model: a first-order Gauss-Markov process). */
const WANDER_SECONDS = 2;
/** The phase is improved by no more than this at a time. */
const LARGEST_STEP = 1;
const SETTLED = 0.01;
/** The filters settle in two rounds. */
const LEAST_ROUNDS = 2;
const MOST_ROUNDS = 12;

/**
 * Follows a line that keeps time with the wheel through series of pitch and level, all of which share its phase: the
 * amplitudes by generalised least squares, the phase by Gauss-Newton with a prior on how evenly the crank is turned, in
 * turn.
 *
 * @param series - their slow trend taken out
 * @param harmonics - of the path's rate that the swing is made of
 * @param rateSpread - standard deviation of the rate as a share of it
 * @param order - of the filter that makes the rest white. While the path may still be wrong, 1: what a wrong path leaves of the line
 * is a line still, and a longer filter would take it for background.
 * @returns null where the series don't determine the swing
 */
export function followTurns(
  series: readonly Float64Array[],
  stepSeconds: number,
  start: TurnPath,
  harmonics: readonly number[],
  rateSpread: number,
  order: number,
): FollowedTurns | null {
  let path = start;
  let filters: Float64Array[] = series.map(() => Float64Array.of(1));
  for (let round = 0; ; round++) {
    const waves = swingColumns(path.phase, harmonics);
    const fits = series.map((values, i) => whitenedFit(values, waves, filters[i], 0));
    if (!fits.every((fit) => fit !== null)) return null;
    const step = phaseStep(fits, waves, harmonics, path, stepSeconds, rateSpread);
    if (step === null) return null;
    if (round >= MOST_ROUNDS || (round >= LEAST_ROUNDS && step.largest < SETTLED)) {
      const evidence = fits.reduce((sum, { logLikelihood }) => sum + logLikelihood, 0) - step.cost();
      return { path, fits, evidence, rateError: step.rateError() };
    }
    path = turnPath(path.meanRateHz, step.knots, path.phase.length, stepSeconds);
    filters = series.map((values, i) => filterOf(values, waves, fits[i], order));
  }
}

function phaseStep(
  fits: readonly WhitenedFit[],
  waves: readonly Float64Array[],
  harmonics: readonly number[],
  path: TurnPath,
  stepSeconds: number,
  rateSpread: number,
) {
  const { knots } = path;
  const size = knots.length;
  const middle = size >> 1;
  const prior = priorMatrix(size, rateSpread * 2 * Math.PI * path.meanRateHz);
  const pulls = pullsOf(prior, knots);
  let penalty = 0;
  for (let r = 0; r < size; r++) penalty -= pulls[r] * knots[r];
  const equations = new KernelRows(ScratchUser.knots, size + 1, size);
  for (let r = 0; r < size; r++) equations.put(r, prior.subarray(r * size, (r + 1) * size));
  equations.put(size, pulls);
  const count = path.phase.length;
  const series = new KernelRows(ScratchUser.rates, waves.length + 4, count);
  const [change, filterRow, whiteRow, innovationRow] = [0, 1, 2, 3].map((row) => waves.length + row);
  const { functions } = kernels();
  for (let w = 0; w < waves.length; w++) series.put(w, waves[w]);
  for (const { coefficients, filter, innovations, variance } of fits) {
    series.fill(change, 0);
    for (let h = 0; h < harmonics.length; h++) {
      const cosine = coefficients[2 * h];
      const sine = coefficients[2 * h + 1];
      functions.addScaled(series.place(2 * h), harmonics[h] * sine, count, series.place(change));
      functions.addScaled(series.place(2 * h + 1), -harmonics[h] * cosine, count, series.place(change));
    }
    const skip = filter.length - 1;
    series.put(filterRow, filter);
    series.put(innovationRow, innovations);
    functions.filterSeries(
      series.place(change),
      count,
      series.place(filterRow),
      skip,
      series.place(whiteRow),
    );
    const placeStep = stepSeconds / KNOT_SECONDS;
    // biome-ignore format: arguments of a kernel
    functions.addPulls(series.place(whiteRow), series.place(innovationRow), count - skip, (skip + 0.5) * placeStep, placeStep, variance, size, equations.stride, equations.place(0), equations.place(size));
  }
  const right = equations.copy(size);
  // The middle knot stays: a shift of all of them is a shift of the swing itself.
  const kept = Array.from({ length: size }, (_, j) => j).filter((j) => j !== middle);
  const factor = cholesky(
    without(
      Array.from(knots, (_, r) => equations.copy(r)),
      kept,
    ),
    kept.length,
  );
  if (factor === null) return null;
  const solved = backSolved(
    factor,
    forwardSolved(
      factor,
      Float64Array.from(kept, (j) => right[j]),
    ),
  );
  let largest = 0;
  const moved = knots.slice();
  for (const [k, j] of kept.entries()) {
    largest = Math.max(largest, Math.abs(solved[k]));
    moved[j] += solved[k];
  }
  if (largest > LARGEST_STEP) {
    const share = LARGEST_STEP / largest;
    for (const [k, j] of kept.entries()) moved[j] -= (1 - share) * solved[k];
  }
  const cost = () => {
    const rows = Array.from(knots, (_, r) => prior.subarray(r * size, (r + 1) * size));
    const free = cholesky(without(rows, kept), kept.length);
    let sum = penalty / 2;
    for (let k = 0; k < kept.length; k++) {
      const at = k * kept.length + k;
      sum += Math.log(factor[at] / (free === null ? 1 : free[at]));
    }
    return sum;
  };
  // The mean rate is the phase gone through, from the first step to the last, over the time.
  const rateError = () => {
    const seconds = (path.phase.length - 1) * stepSeconds;
    const gone = new Float64Array(size);
    for (const [at, sign] of [
      [stepSeconds / 2, -1],
      [stepSeconds / 2 + seconds, 1],
    ]) {
      const j = Math.min(size - 2, Math.floor(at / KNOT_SECONDS));
      const share = at / KNOT_SECONDS - j;
      gone[j] += sign * (1 - share);
      gone[j + 1] += sign * share;
    }
    const spread = forwardSolved(
      factor,
      Float64Array.from(kept, (j) => gone[j]),
    );
    return Math.sqrt(spread.reduce((sum, value) => sum + value * value, 0)) / seconds / (2 * Math.PI);
  };
  return { knots: moved, largest, cost, rateError };
}

/** Inverse covariance of the knots: the rate between two of them is correlated with the one before. */
function priorMatrix(size: number, rateDeviation: number): Float64Array {
  const keep = Math.exp(-KNOT_SECONDS / WANDER_SECONDS);
  const matrix = new Float64Array(size * size);
  const scale = (rateDeviation * KNOT_SECONDS) ** 2;
  const first = 1 / scale;
  matrix[0] += first;
  matrix[1] -= first;
  matrix[size] -= first;
  matrix[size + 1] += first;
  const row = [keep, -1 - keep, 1];
  const weight = 1 / (scale * (1 - keep * keep));
  for (let j = 1; j < size - 1; j++) {
    for (let r = 0; r < 3; r++) {
      for (let c = 0; c < 3; c++) matrix[(j - 1 + r) * size + j - 1 + c] += row[r] * row[c] * weight;
    }
  }
  return matrix;
}

/** What the prior pulls at each knot. */
function pullsOf(prior: Float64Array, knots: Float64Array): Float64Array {
  const size = knots.length;
  return knots.map((_, r) => {
    let pull = 0;
    for (let c = 0; c < size; c++) pull -= prior[r * size + c] * knots[c];
    return pull;
  });
}

/** The lower triangle of the rows and columns that are kept, row by row. */
function without(rows: readonly Float64Array[], kept: readonly number[]): Float64Array {
  const out = new Float64Array(kept.length ** 2);
  for (let r = 0; r < kept.length; r++) {
    for (let c = 0; c <= r; c++) out[r * kept.length + c] = rows[kept[r]][kept[c]];
  }
  return out;
}
