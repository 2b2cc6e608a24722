import { smoothFrames } from "../smoothFrames.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { type ComplexFrames, innerProduct, separatePartial } from "./separatePartial.js";

/** What a string explains of the sound at one of its partials. */
export interface Explained {
  /** No other string comes near. */
  readonly isOwn: boolean;
  /** Power that the string explains, the share of what the others leave, and of all that stands there. */
  readonly power: number;
  readonly share: number;
  readonly relative: number;
}

/**
 * How much of what the neighbours leave at a partial holds together as one amplitude along the string's course, times
 * its gain. Frames are smoothed first, so that partials further off play no part.
 */
export function explainedBy(
  state: JointState,
  string: JointString,
  number: number,
  near: readonly Neighbour[],
): Explained {
  const smoothed = (frames: ComplexFrames): ComplexFrames => {
    const { real, imaginary } = smoothFrames(
      { real: [frames.real as Float64Array], imaginary: [frames.imaginary as Float64Array] },
      state.grid,
    );
    return { real: real[0], imaginary: imaginary[0] };
  };
  const power = ({ real, imaginary }: ComplexFrames) =>
    real.reduce((sum, value, m) => sum + value * value + imaginary[m] ** 2, 0) / real.length;
  const raw = {
    real: string.frames.real[number - 1],
    imaginary: string.frames.imaginary[number - 1],
  };
  const left = power(smoothed(separatePartial(state, string, number, near, false)));
  const apart = smoothed(separatePartial(state, string, number, near, true));
  const self = { real: string.gain, imaginary: new Float64Array(string.gain.length) };
  const [real, imaginary] = innerProduct(self, apart, state.taper);
  const norm = innerProduct(self, self, state.taper)[0];
  const unexplained = power({
    real: apart.real.map((value, m) => value - (real / norm) * string.gain[m]),
    imaginary: apart.imaginary.map((value, m) => value - (imaginary / norm) * string.gain[m]),
  });
  const gained = Math.max(0, left - unexplained);
  return {
    isOwn: near.length === 0,
    power: gained,
    share: left > 0 ? gained / left : 0,
    relative: gained / Math.max(power(raw), 1e-300),
  };
}
