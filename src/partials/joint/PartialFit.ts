import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
/** A complex value. */
const RESULT_BYTES = 2 * VALUE_BYTES;
/** Share added to the diagonal, so that two columns that are the same get half of the amplitude each. */
const RIDGE = 1e-6;
/** A column of which the others leave less than this share adds nothing. */
const LEAST_NORM = 1e-6;
/** Arrays besides the columns: weights, values (2), the turns of both strings (2 each), a gain; and a result. */
const OTHER_ARRAYS = 8;

/** What least squares gave. */
export interface SolvedFit {
  /** Complex amplitude of each column, interleaved. */
  readonly amplitudes: Float64Array;
  /** Largest squared coherence of the first column with another: 1 where they are the same but for a factor. */
  readonly overlap: number;
}

/** A column in the kernels' memory, and its weighted energy. */
export interface OrthogonalColumn {
  readonly real: number;
  readonly imaginary: number;
  readonly norm: number;
}

/**
 * Least squares of the frames of one partial by columns, each with one complex amplitude: the string's own gain, or how a
 * neighbouring partial looks there. In the kernels' memory (`kernels/assembly/columns.ts`), so one fit at a time: making the
 * next one ends the last.
 */
export class PartialFit {
  /** Frames, filled up to an even number. */
  readonly count: number;
  private readonly state: JointState;
  private readonly string: JointString;
  private readonly number: number;
  private readonly frameCount: number;
  private readonly mostColumns: number;
  private readonly at: number;
  private columnCount = 0;

  /** @param mostColumns - no more than these may be added */
  constructor(state: JointState, string: JointString, number: number, mostColumns: number) {
    this.state = state;
    this.string = string;
    this.number = number;
    this.frameCount = state.grid.count;
    this.count = this.frameCount + (this.frameCount % 2);
    this.mostColumns = mostColumns;
    const { real, imaginary } = string.frames.partial(number);
    const arrays = OTHER_ARRAYS + 2 * mostColumns;
    const equations = 2 * mostColumns * (mostColumns + 2) * VALUE_BYTES;
    const bytes = arrays * this.count * VALUE_BYTES + RESULT_BYTES + equations;
    this.at = kernels().scratch(bytes, ScratchUser.columns);
    this.put(this.weights, state.taper);
    this.put(this.real, real);
    this.put(this.imaginary, imaginary);
  }

  /** Adds the string's own gain, with no phase of its own, as a column. */
  addGain(): void {
    const column = this.column(this.columnCount++);
    this.put(column, this.string.gain);
    const first = (column + this.count * VALUE_BYTES) / VALUE_BYTES;
    kernels().f64.fill(0, first, first + this.count);
  }

  /**
   * Adds how a neighbouring partial of amplitude 1 looks: it turns at the difference of the two courses, weakened where it
   * lies near the edge of the band that the frames were cut from.
   */
  addNeighbour({ string: other, number: otherNumber }: Neighbour): void {
    const { state, string, number } = this;
    const mine = this.array(3);
    const theirs = this.array(5);
    const gain = this.array(7);
    this.put(mine, string.frames.turn(number), 2);
    this.put(theirs, other.frames.turn(otherNumber), 2);
    this.put(gain, other.gain);
    // Both turns are counted from constant frequencies, and what is left is how these turn against each other.
    const constantHz = otherNumber * other.frames.constantHz - number * string.frames.constantHz;
    const angle = 2 * Math.PI * constantHz * state.grid.hopSeconds;
    const level = state.spectrum.response(otherNumber * other.baseHz - number * string.baseHz);
    const column = this.column(this.columnCount++);
    // biome-ignore format: arguments of a kernel
    kernels().functions.neighbourColumn(mine, theirs, gain, level, Math.cos(angle), Math.sin(angle), this.count, column, column + this.count * VALUE_BYTES);
  }

  /** The amplitudes by the normal equations. */
  solve(): SolvedFit {
    const { columnCount, count } = this;
    const rows = this.array(OTHER_ARRAYS + 2 * this.mostColumns) + RESULT_BYTES;
    const amplitudes = rows + 2 * columnCount * (columnCount + 1) * VALUE_BYTES;
    const { functions, f64 } = kernels();
    // biome-ignore format: as above
    const overlap = functions.solveColumns(this.column(0), columnCount, this.real, this.imaginary, this.weights, count, RIDGE, rows, amplitudes);
    const first = amplitudes / VALUE_BYTES;
    return { amplitudes: f64.slice(first, first + 2 * columnCount), overlap };
  }

  /** Takes columns, times their amplitudes, out of the values: all, or those that are chosen. */
  takeOut({ amplitudes }: SolvedFit, isChosen: (column: number) => boolean = () => true): void {
    const { functions } = kernels();
    for (let c = 0; c < this.columnCount; c++) {
      if (!isChosen(c)) continue;
      const column = this.column(c);
      const [a, b] = [amplitudes[2 * c], amplitudes[2 * c + 1]];
      // biome-ignore format: as above
      functions.takeOut(this.real, this.imaginary, column, column + this.count * VALUE_BYTES, a, b, this.count);
    }
  }

  /** Mean power of what the values hold beyond the string's own gain times an amplitude. */
  restPower(amplitudeReal = 0, amplitudeImaginary = 0): number {
    const gain = this.array(7);
    this.put(gain, this.string.gain);
    const { functions } = kernels();
    // biome-ignore format: as above
    const energy = functions.restEnergy(this.real, this.imaginary, gain, amplitudeReal, amplitudeImaginary, this.count);
    return energy / this.frameCount;
  }

  /** Weighted energy of what the values hold. */
  energy(): number {
    return this.product(this.real, this.real)[0];
  }

  /** Makes each column orthogonal to those before it under the weights (Gram and Schmidt); those that add nothing are left out. */
  orthogonalColumns(): OrthogonalColumn[] {
    const kept: OrthogonalColumn[] = [];
    const next = this.count * VALUE_BYTES;
    const { functions } = kernels();
    for (let c = 0; c < this.columnCount; c++) {
      const real = this.column(c);
      const before = this.product(real, real)[0];
      for (const other of kept) {
        const [a, b] = this.product(other.real, real);
        // biome-ignore format: as above
        functions.takeOut(real, real + next, other.real, other.imaginary, a / other.norm, b / other.norm, this.count);
      }
      const norm = this.product(real, real)[0];
      if (norm >= LEAST_NORM * before) kept.push({ real, imaginary: real + next, norm });
    }
    return kept;
  }

  /** Puts zeros in the place of the values. */
  clearValues(): void {
    kernels().f64.fill(0, this.real / VALUE_BYTES, this.real / VALUE_BYTES + 2 * this.count);
  }

  /** What the values hold now. */
  readValues(into: ComplexFrames): void {
    this.get(into.real, this.real);
    this.get(into.imaginary, this.imaginary);
  }

  /** Where the columns begin in the kernels' memory, real and imaginary parts by turns. */
  get columns(): number {
    return this.column(0);
  }

  /** Where the real parts of the values are. */
  get real(): number {
    return this.array(1);
  }

  /** Where the imaginary parts of the values are. */
  get imaginary(): number {
    return this.array(2);
  }

  /** Where the weights are. */
  get weights(): number {
    return this.array(0);
  }

  private array(index: number): number {
    return this.at + index * this.count * VALUE_BYTES;
  }

  private column(index: number): number {
    return this.array(OTHER_ARRAYS + 2 * index);
  }

  private product(a: number, b: number): [real: number, imaginary: number] {
    const next = this.count * VALUE_BYTES;
    const result = this.array(OTHER_ARRAYS + 2 * this.mostColumns);
    const { functions, f64 } = kernels();
    functions.innerProduct(a, a + next, b, b + next, this.weights, this.count, result);
    return [f64[result / VALUE_BYTES], f64[result / VALUE_BYTES + 1]];
  }

  /** @param each - values a frame */
  private put(place: number, values: Float64Array, each = 1): void {
    const { f64 } = kernels();
    const first = place / VALUE_BYTES;
    f64.set(values, first);
    f64.fill(0, first + values.length, first + each * this.count);
  }

  private get(values: Float64Array, place: number): void {
    const first = place / VALUE_BYTES;
    values.set(kernels().f64.subarray(first, first + this.frameCount));
  }
}
