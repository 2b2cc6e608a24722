import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";

const scratch = new FrameScratch();

/** A partial with its neighbours taken out. */
export interface SeparatedPartial extends ComplexFrames {
  /** Mean power of the partial itself; 0 where it was not fitted. */
  readonly power: number;
  /** Mean power of what neither it nor its neighbours explain. */
  readonly restPower: number;
  /** Of the partial's amplitude, the share that could as well be a neighbour's: 0 apart, 1 not to be told apart. */
  readonly overlap: number;
}

/**
 * How a neighbouring partial of amplitude 1 looks in the frames of a partial: it turns at the difference of the two
 * courses, weakened where it lies near the edge of the band that the frames were cut from.
 *
 * @param into - filled and returned; new frames where not given
 */
export function neighbourPhasor(
  { grid, spectrum }: JointState,
  string: JointString,
  number: number,
  neighbour: Neighbour,
  into: ComplexFrames = { real: new Float64Array(grid.count), imaginary: new Float64Array(grid.count) },
): ComplexFrames {
  const other = neighbour.string;
  const differenceHz = neighbour.number * other.baseHz - number * string.baseHz;
  const level = spectrum.response(differenceHz);
  const mine = string.frames.turn(number);
  const theirs = other.frames.turn(neighbour.number);
  // Both turns are counted from constant frequencies, and what is left is how these turn against each other.
  const constantHz = neighbour.number * other.frames.constantHz - number * string.frames.constantHz;
  const stepReal = Math.cos(2 * Math.PI * constantHz * grid.hopSeconds);
  const stepImaginary = Math.sin(2 * Math.PI * constantHz * grid.hopSeconds);
  let turnReal = level;
  let turnImaginary = 0;
  const { gain } = other;
  const { real, imaginary } = into;
  for (let m = 0; m < grid.count; m++) {
    const i = 2 * m;
    const a = mine[i] * theirs[i] + mine[i + 1] * theirs[i + 1];
    const b = mine[i + 1] * theirs[i] - mine[i] * theirs[i + 1];
    real[m] = gain[m] * (a * turnReal - b * turnImaginary);
    imaginary[m] = gain[m] * (a * turnImaginary + b * turnReal);
    const next = turnReal * stepReal - turnImaginary * stepImaginary;
    turnImaginary = turnReal * stepImaginary + turnImaginary * stepReal;
    turnReal = next;
  }
  return into;
}

/**
 * Splits a partial's frames between the partial and its neighbours by least squares: every one of them has one
 * amplitude, times the string's gain, along its own course, so two partials a fraction of a hertz apart still differ over a passage.
 *
 * @param fitSelf - false takes out the neighbours alone, as if the partial were not there
 * @param into - filled where there is something to take out; new frames where not given
 */
export function separatePartial(
  state: JointState,
  string: JointString,
  number: number,
  neighbours: readonly Neighbour[],
  fitSelf: boolean,
  into?: ComplexFrames,
): SeparatedPartial {
  const { taper, grid } = state;
  const frames = string.frames.partial(number);
  if (neighbours.length === 0) return alonePartial(frames, string.gain, taper, fitSelf);
  const real = copied(frames.real, into?.real);
  const imaginary = copied(frames.imaginary, into?.imaginary);
  const phasors = neighbours.map((neighbour, i) =>
    neighbourPhasor(state, string, number, neighbour, scratch.take(i, grid.count)),
  );
  const self = { real: string.gain, imaginary: null };
  const columns = fitSelf ? [self, ...phasors] : phasors;
  const gram = gramMatrix(columns, frames, taper);
  const overlap = fitSelf ? largestOverlap(gram) : 0;
  const amplitudes = solved(gram);
  const first = fitSelf ? 1 : 0;
  const [selfReal, selfImaginary] = fitSelf ? [amplitudes[0], amplitudes[1]] : [0, 0];
  for (const [c, phasor] of phasors.entries()) takeOut(real, imaginary, phasor, amplitudes, first + c);
  let restPower = 0;
  for (let m = 0; m < grid.count; m++) {
    const gain = string.gain[m];
    restPower += (real[m] - gain * selfReal) ** 2 + (imaginary[m] - gain * selfImaginary) ** 2;
  }
  return {
    real,
    imaginary,
    power: selfReal ** 2 + selfImaginary ** 2,
    restPower: restPower / grid.count,
    overlap,
  };
}

function copied(values: Float64Array, into: Float64Array = new Float64Array(values.length)): Float64Array {
  into.set(values);
  return into;
}

/** The same where there is nothing to take out. */
function alonePartial(
  { real, imaginary }: ComplexFrames,
  gain: Float64Array,
  taper: Float64Array,
  fitSelf: boolean,
): SeparatedPartial {
  let selfReal = 0;
  let selfImaginary = 0;
  if (fitSelf) {
    let norm = 0;
    for (let m = 0; m < gain.length; m++) {
      const weight = taper[m] * gain[m];
      selfReal += weight * real[m];
      selfImaginary += weight * imaginary[m];
      norm += weight * gain[m];
    }
    selfReal /= norm * (1 + RIDGE);
    selfImaginary /= norm * (1 + RIDGE);
  }
  let restPower = 0;
  for (let m = 0; m < gain.length; m++) {
    restPower += (real[m] - gain[m] * selfReal) ** 2 + (imaginary[m] - gain[m] * selfImaginary) ** 2;
  }
  return {
    real,
    imaginary,
    power: selfReal ** 2 + selfImaginary ** 2,
    restPower: restPower / gain.length,
    overlap: 0,
  };
}

/** Complex amplitudes of columns by least squares (interleaved), and what they leave. */
export function separateAll(
  columns: readonly ComplexFrames[],
  values: ComplexFrames,
  weights: Float64Array,
): { readonly amplitudes: Float64Array; readonly rest: ComplexFrames } {
  const amplitudes = solved(gramMatrix(columns, values, weights));
  const real = new Float64Array(values.real);
  const imaginary = new Float64Array(values.imaginary);
  for (const [c, column] of columns.entries()) takeOut(real, imaginary, column, amplitudes, c);
  return { amplitudes, rest: { real, imaginary } };
}

function takeOut(
  real: Float64Array,
  imaginary: Float64Array,
  column: ComplexFrames,
  amplitudes: Float64Array,
  index: number,
): void {
  const a = amplitudes[2 * index];
  const b = amplitudes[2 * index + 1];
  for (let m = 0; m < real.length; m++) {
    real[m] -= a * column.real[m] - b * column.imaginary[m];
    imaginary[m] -= a * column.imaginary[m] + b * column.real[m];
  }
}

/** Mean power of complex values. */
export function meanSquare({ real, imaginary }: ComplexFrames): number {
  let sum = 0;
  for (let m = 0; m < real.length; m++) sum += real[m] ** 2 + imaginary[m] ** 2;
  return sum / real.length;
}

/** Weighted inner product of two columns, the first conjugated. */
export function innerProduct(
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

/** What is fitted: a neighbour's phasor, or the gain of the string itself, which is real. */
interface Column {
  readonly real: Float64Array;
  readonly imaginary: Float64Array | null;
}

function weightedPower({ real, imaginary }: Column, weights: Float64Array): number {
  let sum = 0;
  if (imaginary === null) for (let m = 0; m < weights.length; m++) sum += weights[m] * real[m] * real[m];
  else {
    for (let m = 0; m < weights.length; m++) {
      sum += weights[m] * (real[m] * real[m] + imaginary[m] * imaginary[m]);
    }
  }
  return sum;
}

/** Weighted inner product of two columns, the first conjugated; only the first may be real. */
function columnProduct(a: Column, b: Column, weights: Float64Array): [real: number, imaginary: number] {
  const { real: x, imaginary: y } = b;
  if (y === null) return [0, 0];
  if (a.imaginary !== null)
    return innerProduct({ real: a.real, imaginary: a.imaginary }, { real: x, imaginary: y }, weights);
  let real = 0;
  let imaginary = 0;
  for (let m = 0; m < weights.length; m++) {
    const weighted = weights[m] * a.real[m];
    real += weighted * x[m];
    imaginary += weighted * y[m];
  }
  return [real, imaginary];
}

/** Share added to the diagonal, so that two columns that are the same get half of the amplitude each. */
const RIDGE = 1e-6;

/** Inner products of the columns with each other and, last in each row, with the values: interleaved rows. */
function gramMatrix(
  columns: readonly Column[],
  values: ComplexFrames,
  weights: Float64Array,
): Float64Array[] {
  const size = columns.length;
  const rows = columns.map(() => new Float64Array(2 * (size + 1)));
  for (const [r, row] of rows.entries()) {
    row[2 * r] = weightedPower(columns[r], weights);
    for (let c = r + 1; c <= size; c++) {
      const [real, imaginary] = columnProduct(columns[r], c < size ? columns[c] : values, weights);
      row[2 * c] = real;
      row[2 * c + 1] = imaginary;
      if (c === size) continue;
      rows[c][2 * r] = real;
      rows[c][2 * r + 1] = -imaginary;
    }
  }
  return rows;
}

/** Largest squared coherence of the first column with another: 1 where they are the same but for a factor. */
function largestOverlap(gram: readonly Float64Array[]): number {
  let largest = 0;
  for (let c = 1; c < gram.length; c++) {
    const norm = gram[0][0] * gram[c][2 * c];
    if (norm > 0) largest = Math.max(largest, (gram[0][2 * c] ** 2 + gram[0][2 * c + 1] ** 2) / norm);
  }
  return largest;
}

/** Complex amplitudes of the columns, interleaved, by the normal equations and Gauss-Jordan elimination; `rows` is used up. */
function solved(rows: readonly Float64Array[]): Float64Array {
  const size = rows.length;
  for (let r = 0; r < size; r++) rows[r][2 * r] *= 1 + RIDGE;
  for (let p = 0; p < size; p++) {
    const pivotReal = rows[p][2 * p];
    const pivotImaginary = rows[p][2 * p + 1];
    const norm = Math.max(pivotReal ** 2 + pivotImaginary ** 2, 1e-300);
    for (let r = 0; r < size; r++) {
      if (r === p) continue;
      const real = (rows[r][2 * p] * pivotReal + rows[r][2 * p + 1] * pivotImaginary) / norm;
      const imaginary = (rows[r][2 * p + 1] * pivotReal - rows[r][2 * p] * pivotImaginary) / norm;
      for (let c = p; c <= size; c++) {
        rows[r][2 * c] -= real * rows[p][2 * c] - imaginary * rows[p][2 * c + 1];
        rows[r][2 * c + 1] -= real * rows[p][2 * c + 1] + imaginary * rows[p][2 * c];
      }
    }
  }
  const amplitudes = new Float64Array(2 * size);
  for (let p = 0; p < size; p++) {
    const [real, imaginary] = [rows[p][2 * p], rows[p][2 * p + 1]];
    const norm = Math.max(real ** 2 + imaginary ** 2, 1e-300);
    amplitudes[2 * p] = (rows[p][2 * size] * real + rows[p][2 * size + 1] * imaginary) / norm;
    amplitudes[2 * p + 1] = (rows[p][2 * size + 1] * real - rows[p][2 * size] * imaginary) / norm;
  }
  return amplitudes;
}
