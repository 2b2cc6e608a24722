import type { ComplexFrames } from "./ComplexFrames.js";
import type { ConstantFrames } from "./ConstantFrames.js";

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
    const { real: a, imaginary: b } = this.constant.partial(number);
    const turn = this.turn(number);
    const real = new Float64Array(a.length);
    const imaginary = new Float64Array(a.length);
    for (let m = 0; m < a.length; m++) {
      real[m] = a[m] * turn[2 * m] - b[m] * turn[2 * m + 1];
      imaginary[m] = a[m] * turn[2 * m + 1] + b[m] * turn[2 * m];
    }
    const frames = { real, imaginary };
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
      const next = new Float64Array(last.length);
      for (let i = 0; i < next.length; i += 2) {
        next[i] = last[i] * step[i] - last[i + 1] * step[i + 1];
        next[i + 1] = last[i] * step[i + 1] + last[i + 1] * step[i];
      }
      turns.push(next);
    }
    return turns[number];
  }
}

function phasor(cycles: Float64Array): Float64Array {
  const values = new Float64Array(2 * cycles.length);
  for (let m = 0; m < cycles.length; m++) {
    const angle = -2 * Math.PI * cycles[m];
    values[2 * m] = Math.cos(angle);
    values[2 * m + 1] = Math.sin(angle);
  }
  return values;
}
