import { nextPowerOfTwo } from "../../signal/nextPowerOfTwo.js";
import { Scratch } from "../../signal/Scratch.js";
import { sharedFft } from "../../signal/sharedFft.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { NEIGHBOUR_HZ, type Neighbour, neighbours } from "./neighbours.js";
import { PartialFit } from "./PartialFit.js";

/** Few partials find a frequency as well as many, and low ones are not torn apart by the swing of the wheel. */
const MOST_PARTIALS = 5;
const HIGHEST_NUMBER = 16;
/** Spectra are padded this many times, so that the nearest bin, an eighth of a cycle off at most, is near enough. */
const PADDING = 4;
const scratch = { input: new Scratch(), output: new Scratch(), powers: new Scratch() };
const frameScratch = new FrameScratch();
/** A candidate that the neighbours cover to more than this can't be told from them. */
const LEAST_UNCOVERED = 0.02;

interface Evidence {
  readonly number: number;
  /** Weighted energy of the frames, the known neighbours taken out. */
  readonly energy: number;
  /** Share of it that a line leaves, for lines from `-reach` to `reach` bins from the partial; 1 where it can't be told. */
  readonly left: Float64Array;
  readonly reach: number;
}

/** What the place that was found has for it. */
export interface Located {
  /** Product over the partials that were looked at of the share that a line there leaves: 1 where it explains nothing. */
  readonly left: number;
  /** Power at these partials, 1 for a full-scale sine, the strings that are located already taken out. */
  readonly power: number;
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
 * @returns null where no partial could be looked at; the string stays where it was
 */
export function locateString(
  state: JointState,
  string: JointString,
  spanCents: number,
  unlocatedSpanCents: number,
): Located | null {
  const spanHz = string.baseHz * (2 ** (spanCents / 1200) - 1);
  const { grid } = state;
  const size = nextPowerOfTwo(PADDING * grid.count);
  const binHz = 1 / (grid.hopSeconds * size);
  const evidence = chosenPartials(state, string, spanHz, unlocatedSpanCents).map(({ number, known }) =>
    evidenceOf(state, string, number, known, size, Math.round((number * spanHz) / binHz)),
  );
  if (evidence.length === 0) return null;
  const highest = evidence[evidence.length - 1].number;
  const stepHz = binHz / highest;
  let best = Number.POSITIVE_INFINITY;
  let bestHz = 0;
  for (let offsetHz = -spanHz; offsetHz <= spanHz; offsetHz += stepHz) {
    let product = 1;
    for (let i = 0; i < evidence.length; i++) {
      const { number, left, reach } = evidence[i];
      product *= left[Math.round((number * offsetHz) / binHz) + reach];
    }
    if (product < best) {
      best = product;
      bestHz = offsetHz;
    }
  }
  moveString(state, string, string.baseHz + bestHz, new Float64Array(grid.count));
  const total = totalOf(state.taper);
  return { left: best, power: evidence.reduce((sum, { energy }) => sum + energy, 0) / total };
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
  reach: number,
): Evidence {
  const { taper } = state;
  const { phasors, rest } = withoutKnown(state, string, number, known);
  const basis = orthonormal(phasors, taper);
  const energy = Math.max(innerProduct(rest, rest, taper)[0], 1e-300);
  const total = totalOf(taper);
  const uncovered = new Float64Array(2 * reach + 1).fill(total);
  for (const column of basis) {
    const covered = powerSpectrum(column, taper, size, reach);
    for (let i = 0; i < uncovered.length; i++) uncovered[i] -= covered[i];
  }
  const explained = powerSpectrum(rest, taper, size, reach);
  const left = uncovered;
  for (let i = 0; i < left.length; i++) {
    const free = uncovered[i];
    left[i] = free < LEAST_UNCOVERED * total ? 1 : 1 - Math.min(0.999, explained[i] / free / energy);
  }
  return { number, energy, left, reach };
}

/** The frames with the known neighbours taken out, and how these look there. */
function withoutKnown(
  state: JointState,
  string: JointString,
  number: number,
  known: readonly Neighbour[],
): { phasors: readonly ComplexFrames[]; rest: ComplexFrames } {
  if (known.length === 0) return { phasors: [], rest: string.frames.partial(number) };
  const fit = new PartialFit(state, string, number, known.length);
  for (const one of known) fit.addNeighbour(one);
  fit.takeOut(fit.solve());
  const frames = (index: number) => frameScratch.take(index, state.grid.count);
  const rest = frames(0);
  fit.readValues(rest);
  const phasors = known.map((_, i) => {
    const column = frames(i + 1);
    fit.readColumn(i, column);
    return column;
  });
  return { phasors, rest };
}

/** Weighted inner product of two columns, the first conjugated. */
function innerProduct(
  a: ComplexFrames,
  b: ComplexFrames,
  weights: Float64Array,
): [real: number, imaginary: number] {
  let real = 0;
  let imaginary = 0;
  for (let m = 0; m < weights.length; m++) {
    real += weights[m] * (a.real[m] * b.real[m] + a.imaginary[m] * b.imaginary[m]);
    imaginary += weights[m] * (a.real[m] * b.imaginary[m] - a.imaginary[m] * b.real[m]);
  }
  return [real, imaginary];
}

function totalOf(weights: Float64Array): number {
  let total = 0;
  for (let m = 0; m < weights.length; m++) total += weights[m];
  return total;
}

/** Gram-Schmidt under the weights; columns that add nothing are left out. */
function orthonormal(columns: readonly ComplexFrames[], weights: Float64Array): ComplexFrames[] {
  const basis: ComplexFrames[] = [];
  for (const column of columns) {
    const real = new Float64Array(column.real);
    const imaginary = new Float64Array(column.imaginary);
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
    for (let m = 0; m < real.length; m++) {
      real[m] *= scale;
      imaginary[m] *= scale;
    }
    basis.push({ real, imaginary });
  }
  return basis;
}

/** |sum over frames of weight * value * exp(-j 2 pi k m / size)|^2 for bins k from `-reach` to `reach`; good until the next call. */
function powerSpectrum(
  frames: ComplexFrames,
  weights: Float64Array,
  size: number,
  reach: number,
): Float64Array {
  const input = scratch.input.take(2 * size);
  input.fill(0, 2 * weights.length);
  for (let m = 0; m < weights.length; m++) {
    input[2 * m] = weights[m] * frames.real[m];
    input[2 * m + 1] = weights[m] * frames.imaginary[m];
  }
  const output = scratch.output.take(2 * size);
  sharedFft(size).forward(output, input);
  const powers = scratch.powers.take(2 * reach + 1);
  for (let i = 0; i < powers.length; i++) {
    const k = (((i - reach) % size) + size) % size;
    powers[i] = output[2 * k] * output[2 * k] + output[2 * k + 1] * output[2 * k + 1];
  }
  return powers;
}
