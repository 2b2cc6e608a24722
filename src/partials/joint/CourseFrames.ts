import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import type { ConstantFrames } from "./ConstantFrames.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/**
 * Frames of a string's partials along its course: those at a constant frequency, partial n turned back by n times the
 * phase that the course is ahead. Each is made when it is first asked for: locating a string takes five of them, finding
 * out whether it sounds twenty, of the forty and more that a low drone has.
 */
export class CourseFrames {
  /** The base frequency that the phase is ahead of. */
  readonly constantHz: number;
  private readonly constant: ConstantFrames;
  private readonly aheadCycles: Float64Array;
  private readonly made: (ComplexFrames | undefined)[] = [];
  private readonly turns: Float64Array[] = [];

  /** @param aheadCycles - phase ahead of the constant frequency at each frame */
  constructor(constant: ConstantFrames, aheadCycles: Float64Array) {
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
    const frames = {
      real: f64.slice(first, first + count),
      imaginary: f64.slice(first + even, first + even + count),
    };
    this.made[number] = frames;
    return frames;
  }

  /** exp(-j 2 pi n ahead) at each frame, interleaved: each power from the one before, without sines and cosines. */
  turn(number: number): Float64Array {
    const { turns } = this;
    if (turns.length === 0) turns.push(new Float64Array(0), phasor(this.aheadCycles));
    const step = turns[1];
    while (turns.length <= number) {
      const last = turns[turns.length - 1];
      const at = kernels().scratch(2 * last.byteLength, ScratchUser.turning);
      const { functions, f64 } = kernels();
      const first = at / VALUE_BYTES;
      f64.set(last, first);
      f64.set(step, first + last.length);
      functions.multiplyPhasors(at, at + last.byteLength, last.length / 2);
      const next = f64.slice(first, first + last.length);
      turns.push(next);
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
