import { nextPowerOfTwo } from "../../signal/nextPowerOfTwo.js";
import { sharedFft } from "../../signal/sharedFft.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { NEIGHBOUR_HZ, type Neighbour, neighbours } from "./neighbours.js";
import { innerProduct, neighbourPhasor, separatePartial } from "./separatePartial.js";

/** Few partials find a frequency as well as many, and low ones are not torn apart by the swing of the wheel. */
const MOST_PARTIALS = 5;
const HIGHEST_NUMBER = 16;
/** Spectra are padded this many times, so that the nearest bin, an eighth of a cycle off at most, is near enough. */
const PADDING = 4;
/** A candidate that the neighbours cover to more than this can't be told from them. */
const LEAST_UNCOVERED = 0.02;

interface Evidence {
  readonly number: number;
  readonly energy: number;
  readonly values: Float64Array;
  readonly covers: readonly Float64Array[];
}

/**
 * Looks for the frequency of a string within a span of its present one, by what its partials explain once the strings
 * that are located already are taken out of them.
 *
 * For each of a few partials the frames are projected off the known neighbours; the share of what is left that a line at
 * n times a candidate explains is |v'y|^2 / (|v|^2 - |Q'v|^2) over the energy, by FFT for all candidates at once. The
 * candidate with the largest sum of -log(1 - share) (here: the least product of 1 - share) wins, the likelihood of lines in noise of unknown level.
 *
 * @param spanCents - candidates lie this far on both sides
 * @param unlocatedSpanCents - strings not located yet may lie this far from where they are
 */
export function locateString(
  state: JointState,
  string: JointString,
  spanCents: number,
  unlocatedSpanCents: number,
): void {
  const spanHz = string.baseHz * (2 ** (spanCents / 1200) - 1);
  const { grid } = state;
  const size = nextPowerOfTwo(PADDING * grid.count);
  const binHz = 1 / (grid.hopSeconds * size);
  const evidence = chosenPartials(state, string, spanHz, unlocatedSpanCents).map(({ number, known }) =>
    evidenceOf(state, string, number, known, size),
  );
  if (evidence.length === 0) return;
  const total = state.taper.reduce((sum, weight) => sum + weight, 0);
  const highest = evidence[evidence.length - 1].number;
  const stepHz = binHz / highest;
  let best = Number.POSITIVE_INFINITY;
  let bestHz = 0;
  for (let offsetHz = -spanHz; offsetHz <= spanHz; offsetHz += stepHz) {
    let left = 1;
    for (const { number, energy, values, covers } of evidence) {
      const bin = ((Math.round((number * offsetHz) / binHz) % size) + size) % size;
      let uncovered = total;
      for (const cover of covers) uncovered -= cover[bin];
      if (uncovered < LEAST_UNCOVERED * total) continue;
      left *= 1 - Math.min(0.999, values[bin] / uncovered / energy);
    }
    if (left < best) {
      best = left;
      bestHz = offsetHz;
    }
  }
  moveString(state, string, string.baseHz + bestHz, new Float64Array(grid.count));
}

/** Partials to look at: best those that only located strings come near; where there are too few, any. */
function chosenPartials(state: JointState, string: JointString, spanHz: number, unlocatedSpanCents: number) {
  const all: { number: number; known: Neighbour[]; clear: boolean }[] = [];
  const unlocatedShare = 2 ** (unlocatedSpanCents / 1200) - 1;
  for (let number = 1; number <= Math.min(HIGHEST_NUMBER, string.partialCount); number++) {
    if (number * spanHz > state.spectrum.flatHz && number > 1) break;
    const reach = NEIGHBOUR_HZ + number * spanHz;
    const near = neighbours(state, string, number, reach + number * string.baseHz * unlocatedShare);
    const known = near.filter(
      (one) =>
        one.string.located && Math.abs(one.number * one.string.baseHz - number * string.baseHz) < reach,
    );
    all.push({ number, known, clear: near.every((one) => one.string.located) });
  }
  const clear = all.filter((one) => one.clear);
  const free = clear.filter((one) => one.known.length === 0);
  const chosen = free.length >= 1 ? free : clear.length >= 1 ? clear : all;
  return chosen.slice(0, MOST_PARTIALS);
}

function evidenceOf(
  state: JointState,
  string: JointString,
  number: number,
  known: readonly Neighbour[],
  size: number,
): Evidence {
  const { taper } = state;
  const rest = separatePartial(state, string, number, known, false);
  const basis = orthonormal(
    known.map((one) => neighbourPhasor(state, string, number, one)),
    taper,
  );
  return {
    number,
    energy: Math.max(innerProduct(rest, rest, taper)[0], 1e-300),
    values: powerSpectrum(rest, taper, size),
    covers: basis.map((column) => powerSpectrum(column, taper, size)),
  };
}

/** Gram-Schmidt under the weights; columns that add nothing are left out. */
function orthonormal(columns: readonly ComplexFrames[], weights: Float64Array): ComplexFrames[] {
  const basis: ComplexFrames[] = [];
  for (const column of columns) {
    const real = Float64Array.from(column.real);
    const imaginary = Float64Array.from(column.imaginary);
    const before = innerProduct(column, column, weights)[0];
    for (const other of basis) {
      const [a, b] = innerProduct(other, { real, imaginary }, weights);
      for (let m = 0; m < real.length; m++) {
        real[m] -= a * other.real[m] - b * other.imaginary[m];
        imaginary[m] -= a * other.imaginary[m] + b * other.real[m];
      }
    }
    const norm = innerProduct({ real, imaginary }, { real, imaginary }, weights)[0];
    if (norm < 1e-6 * before) continue;
    const scale = 1 / Math.sqrt(norm);
    basis.push({
      real: real.map((value) => value * scale),
      imaginary: imaginary.map((value) => value * scale),
    });
  }
  return basis;
}

/** |sum over frames of weight * value * exp(-j 2 pi k m / size)|^2 for every bin k. */
function powerSpectrum(frames: ComplexFrames, weights: Float64Array, size: number): Float64Array {
  const input = new Float64Array(2 * size);
  for (let m = 0; m < weights.length; m++) {
    input[2 * m] = weights[m] * frames.real[m];
    input[2 * m + 1] = weights[m] * frames.imaginary[m];
  }
  const output = new Float64Array(2 * size);
  sharedFft(size).forward(output, input);
  const powers = new Float64Array(size);
  for (let k = 0; k < size; k++) powers[k] = output[2 * k] ** 2 + output[2 * k + 1] ** 2;
  return powers;
}
