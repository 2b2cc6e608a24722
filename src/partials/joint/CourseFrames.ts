import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import type { ConstantFrames } from "./ConstantFrames.js";
import type { FrameMemory } from "./FrameMemory.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
const NO_TURN = new Float64Array(0);
/** So many turns are made at a time: who asks for one mostly asks for the next ones too. */
const ROWS = 8;

/**
 * Frames of a string's partials along its course: those at a constant frequency, partial n turned back by n times the
 * phase that the course is ahead. Each is made when it is first asked for: locating a string takes five of them, finding
 * out whether it sounds twenty, of the forty and more that a low drone has.
 */
export class CourseFrames {
  /** The base frequency that the phase is ahead of. */
  readonly constantHz: number;
  private readonly memory: FrameMemory;
  private readonly constant: ConstantFrames;
  private readonly aheadCycles: Float64Array;
  private readonly made: (ComplexFrames | undefined)[] = [];
  private readonly turns: Float64Array[] = [];

  /** @param aheadCycles - phase ahead of the constant frequency at each frame */
  constructor(constant: ConstantFrames, aheadCycles: Float64Array) {
    this.memory = constant.memory;
    this.constantHz = constant.baseHz;
    this.constant = constant;
    this.aheadCycles = aheadCycles;
  }

  /** @param number - partial number, from 1 */
  partial(number: number): ComplexFrames {
    const known = this.made[number];
    if (known !== undefined) return known;
    const { real, imaginary } = this.constant.partial(number);
    const turn = this.turn(number);
    const count = real.length;
    const even = count + (count % 2);
    const at = kernels().scratch(4 * even * VALUE_BYTES, ScratchUser.turning);
    const { functions, f64 } = kernels();
    const first = at / VALUE_BYTES;
    f64.set(real, first);
    f64.set(imaginary, first + even);
    f64.set(turn, first + 2 * even);
    functions.turnFrames(at, at + even * VALUE_BYTES, at + 2 * even * VALUE_BYTES, even);
    // Both at once: between them lies at most one value.
    const kept = this.memory.keep(f64.subarray(first, first + even + count));
    const frames = { real: kept.subarray(0, count), imaginary: kept.subarray(even, even + count) };
    this.made[number] = frames;
    return frames;
  }

  /** exp(-j 2 pi n ahead) at each frame, interleaved: each power from the one before, without sines and cosines. */
  turn(number: number): Float64Array {
    const { turns, memory } = this;
    if (turns.length === 0) turns.push(NO_TURN, memory.keep(phasor(this.aheadCycles)));
    const { length } = turns[1];
    while (turns.length <= number) {
      const at = kernels().scratch((2 + ROWS) * length * VALUE_BYTES, ScratchUser.turning);
      const { functions, f64 } = kernels();
      const first = at / VALUE_BYTES;
      f64.set(turns[1], first);
      f64.set(turns[turns.length - 1], first + length);
      const powers = at + 2 * length * VALUE_BYTES;
      functions.phasorPowers(at, at + length * VALUE_BYTES, length / 2, ROWS, powers);
      const kept = memory.keep(f64.subarray(first + 2 * length, first + (2 + ROWS) * length));
      for (let row = 0; row < ROWS; row++) turns.push(kept.subarray(row * length, (row + 1) * length));
    }
    return turns[number];
  }
}

function phasor(cycles: Float64Array): Float64Array {
  const count = cycles.length;
  const at = kernels().scratch(3 * count * VALUE_BYTES, ScratchUser.turning);
  const { functions, f64 } = kernels();
  const first = at / VALUE_BYTES;
  f64.set(cycles, first + 2 * count);
  functions.turnsOfCycles(at + 2 * count * VALUE_BYTES, count, at);
  return f64.slice(first, first + 2 * count);
}
