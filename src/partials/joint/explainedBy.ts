import type { FrameGrid } from "../FrameGrid.js";
import { smoothInto } from "../smoothFrames.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { meanSquare, separatePartial } from "./separatePartial.js";

const scratch = new FrameScratch();

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
 *
 * @param separated - the partial with the neighbours taken out, where that was done before
 */
export function explainedBy(
  state: JointState,
  string: JointString,
  number: number,
  near: readonly Neighbour[],
  separated: ComplexFrames = separatePartial(state, string, number, near, true, raw(state, 2)),
): Explained {
  const { taper, grid } = state;
  const { gain } = string;
  const all = string.frames.partial(number);
  const apart = smoothed(separated, grid, 0);
  const left =
    near.length === 0
      ? meanSquare(apart)
      : meanSquare(smoothed(separatePartial(state, string, number, near, false, raw(state, 2)), grid, 1));
  let real = 0;
  let imaginary = 0;
  let norm = 0;
  for (let m = 0; m < gain.length; m++) {
    const weight = taper[m] * gain[m];
    real += weight * apart.real[m];
    imaginary += weight * apart.imaginary[m];
    norm += weight * gain[m];
  }
  let unexplained = 0;
  for (let m = 0; m < gain.length; m++) {
    unexplained += (apart.real[m] - (real / norm) * gain[m]) ** 2;
    unexplained += (apart.imaginary[m] - (imaginary / norm) * gain[m]) ** 2;
  }
  const gained = Math.max(0, left - unexplained / gain.length);
  return {
    isOwn: near.length === 0,
    power: gained,
    share: left > 0 ? gained / left : 0,
    relative: gained / Math.max(meanSquare(all), 1e-300),
  };
}

function raw({ grid }: JointState, index: number): ComplexFrames {
  return scratch.take(index, grid.count);
}

function smoothed(frames: ComplexFrames, grid: FrameGrid, index: number): ComplexFrames {
  const into = scratch.take(index, frames.real.length);
  smoothInto(into, frames, grid);
  return into;
}
