import type { ConstantFrames } from "./ConstantFrames.js";
import type { ComplexFrames } from "./separatePartial.js";

/**
 * Frames of a string's partials along its course: those at a constant frequency, partial n turned back by n times the
 * phase that the course is ahead. Each is made when it is first asked for: locating a string takes five of them, finding
 * out whether it sounds twenty, of the forty and more that a low drone has.
 */
export class CourseFrames {
  private readonly constant: ConstantFrames;
  private readonly aheadCycles: Float64Array;
  private readonly made: (ComplexFrames | undefined)[] = [];
  /** exp(-j 2 pi ahead), and its power with the exponent that was asked for last; interleaved. */
  private step: Float64Array | null = null;
  private power: Float64Array | null = null;
  private exponent = 0;

  /** @param aheadCycles - phase ahead of the constant frequency at each frame */
  constructor(constant: ConstantFrames, aheadCycles: Float64Array) {
    this.constant = constant;
    this.aheadCycles = aheadCycles;
  }

  /** @param number - partial number, from 1; rising numbers are cheapest */
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

  private turn(number: number): Float64Array {
    this.step ??= phasor(this.aheadCycles);
    if (this.power === null || this.exponent > number) {
      this.power = Float64Array.from(this.step);
      this.exponent = 1;
    }
    const { step, power } = this;
    for (; this.exponent < number; this.exponent++) {
      for (let i = 0; i < power.length; i += 2) {
        const real = power[i] * step[i] - power[i + 1] * step[i + 1];
        power[i + 1] = power[i] * step[i + 1] + power[i + 1] * step[i];
        power[i] = real;
      }
    }
    return power;
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
